#include "output/write_file.h"
#include "tools.h"

#include <doctest/doctest.h>

#include <cerrno>
#include <fcntl.h>
#include <filesystem>
#include <fstream>

using namespace leafwright;
using file::Disk;
using tools::read_file;

namespace {

std::size_t files_in(const tools::Folder& folder) {
  std::size_t count = 0;
  for ([[maybe_unused]] const auto& entry : std::filesystem::directory_iterator(folder.path()))
    ++count;
  return count;
}

void put(const std::string& path, const std::string& content) { std::ofstream(path) << content; }

// A system without nameless files, as some file systems are.
Disk without_nameless() {
  Disk disk = file::real_disk();
  disk.open = [open = disk.open](const std::string& path, int flags, unsigned mode) {
    return (flags & O_TMPFILE) == O_TMPFILE ? -EOPNOTSUPP : open(path, flags, mode);
  };
  return disk;
}

using Breaking = void (*)(Disk&);
const Breaking breakings[] = {
    [](Disk& disk) { disk.write = [](int, std::string_view) -> std::int64_t { return -ENOSPC; }; },
    // Full after the first bytes.
    [](Disk& disk) {
      disk.write = [write = disk.write](int descriptor, std::string_view bytes) -> std::int64_t {
        return bytes.size() > 3 ? write(descriptor, bytes.substr(0, 3)) : -ENOSPC;
      };
    },
    [](Disk& disk) { disk.write = [](int, std::string_view) -> std::int64_t { return 0; }; },
    [](Disk& disk) { disk.sync = [](int) { return -EIO; }; },
    // Some disks tell only here that the bytes did not arrive.
    [](Disk& disk) {
      disk.close = [close = disk.close](int descriptor) {
        close(descriptor);
        return -EIO;
      };
    },
    [](Disk& disk) {
      disk.rename = [](const std::string&, const std::string&) { return -EACCES; };
    },
    [](Disk& disk) { disk.set_mode = [](int, unsigned) { return -EPERM; }; },
};

} // namespace

TEST_CASE("a new file holds what was written and nothing lies beside it") {
  for (const Disk& disk : {file::real_disk(), without_nameless()}) {
    const tools::Folder folder;
    const std::string content("one\0two\n", 8);
    REQUIRE_FALSE(file::write_file(folder.path("new.pdf"), content, disk));
    CHECK(read_file(folder.path("new.pdf")) == content);
    CHECK(files_in(folder) == 1);
  }
}

TEST_CASE("an existing file is replaced and keeps its permissions") {
  const tools::Folder folder;
  put(folder.path("a.pdf"), "old and longer");
  std::filesystem::permissions(folder.path("a.pdf"), std::filesystem::perms{0640});
  REQUIRE_FALSE(file::write_file(folder.path("a.pdf"), "new"));
  CHECK(read_file(folder.path("a.pdf")) == "new");
  CHECK(std::filesystem::status(folder.path("a.pdf")).permissions() ==
        std::filesystem::perms{0640});
}

TEST_CASE("whatever goes wrong, the old file survives and nothing is left behind") {
  for (const bool nameless : {true, false})
    for (const Breaking& broken : breakings) {
      const tools::Folder folder;
      put(folder.path("a.pdf"), "old");
      Disk disk = nameless ? file::real_disk() : without_nameless();
      broken(disk);
      const auto failed = file::write_file(folder.path("a.pdf"), "a new document", disk);
      REQUIRE(failed);
      CHECK(failed->found.find("a.pdf cannot be written") != std::string::npos);
      CHECK_FALSE(failed->fix.empty());
      CHECK(read_file(folder.path("a.pdf")) == "old");
      CHECK(files_in(folder) == 1);
    }
}

TEST_CASE("a full disk is called full") {
  const tools::Folder folder;
  Disk disk = file::real_disk();
  disk.write = [](int, std::string_view) -> std::int64_t { return -ENOSPC; };
  const auto failed = file::write_file(folder.path("a.pdf"), "bytes", disk);
  REQUIRE(failed);
  CHECK(failed->found.find("the disk is full") != std::string::npos);
}

TEST_CASE("a full device is noticed (Linux's /dev/full)") {
  const auto failed = file::write_file("/dev/full", "bytes");
  REQUIRE(failed);
  CHECK(failed->found.find("the disk is full") != std::string::npos);
}

TEST_CASE("writes that the system takes in pieces arrive whole") {
  const tools::Folder folder;
  Disk disk = file::real_disk();
  disk.write = [write = disk.write](int descriptor, std::string_view bytes) {
    return write(descriptor, bytes.substr(0, 7));
  };
  const std::string content(1000, 'x');
  REQUIRE_FALSE(file::write_file(folder.path("a.pdf"), content, disk));
  CHECK(read_file(folder.path("a.pdf")) == content);
}

TEST_CASE("a missing folder, a folder in the file's place and a file in the folder's place are "
          "told apart") {
  const tools::Folder folder;
  put(folder.path("plain"), "");
  const auto missing = file::write_file(folder.path("no/such/a.pdf"), "x");
  REQUIRE(missing);
  CHECK(missing->found.find("its folder does not exist") != std::string::npos);
  const auto is_folder = file::write_file(folder.path(), "x");
  REQUIRE(is_folder);
  CHECK(is_folder->found.find("it is a folder") != std::string::npos);
  const auto through_file = file::write_file(folder.path("plain/a.pdf"), "x");
  REQUIRE(through_file);
  CHECK(through_file->found.find("is a file, not a folder") != std::string::npos);
}

TEST_CASE("a symbolic link stays one and its file is replaced") {
  const tools::Folder folder;
  std::filesystem::create_directory(folder.path("elsewhere"));
  put(folder.path("elsewhere/real.pdf"), "old");
  std::filesystem::create_symlink("elsewhere/real.pdf", folder.path("link.pdf"));
  REQUIRE_FALSE(file::write_file(folder.path("link.pdf"), "new"));
  CHECK(std::filesystem::is_symlink(folder.path("link.pdf")));
  CHECK(read_file(folder.path("elsewhere/real.pdf")) == "new");
}

TEST_CASE("without /proc a nameless file is given up for a named one") {
  const tools::Folder folder;
  Disk disk = file::real_disk();
  disk.name = [](int, const std::string&) { return -ENOENT; };
  REQUIRE_FALSE(file::write_file(folder.path("a.pdf"), "bytes", disk));
  CHECK(read_file(folder.path("a.pdf")) == "bytes");
  CHECK(files_in(folder) == 1);
}
