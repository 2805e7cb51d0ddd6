#include "app/local_page/internal/project_lock.h"

#include "app/local_page/internal/keyed_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cerrno>
#include <cstddef>
#include <filesystem>

#include <sys/socket.h>
#include <sys/un.h>
#include <unistd.h>

namespace leafwright::local_page {

ProjectLock::ProjectLock(const std::string& project_path) {
  std::error_code failed;
  const std::string whole = std::filesystem::weakly_canonical(project_path, failed).string();
  const std::string name = fmt::format("leafwright-{}-{}", ::getuid(), revision_of(whole));
  sockaddr_un address{};
  address.sun_family = AF_UNIX;
  std::ranges::copy(name, address.sun_path + 1); // the first byte stays 0: no file
  const auto length = static_cast<socklen_t>(offsetof(sockaddr_un, sun_path) + 1 + name.size());
  socket_ = ::socket(AF_UNIX, SOCK_STREAM | SOCK_CLOEXEC, 0);
  if (socket_ < 0) return;
  if (::bind(socket_, reinterpret_cast<const sockaddr*>(&address), length) == 0) return;
  held_elsewhere_ = errno == EADDRINUSE;
}

ProjectLock::~ProjectLock() {
  if (socket_ >= 0) ::close(socket_);
}

} // namespace leafwright::local_page
