#include "app/local_page/internal/assets.h"
#include "app/local_page/internal/events.h"
#include "app/local_page/internal/guard.h"
#include "app/local_page/internal/page.h"
#include "app/local_page/internal/project_lock.h"
#include "app/local_page/local_page.h"
#include "app/system/diagnostics.h"
#include "app/system/operating_system.h"

#include <fmt/format.h>
#include <httplib.h>

#include <chrono>
#include <cstdlib>
#include <filesystem>
#include <memory>
#include <ostream>
#include <string>
#include <thread>
#include <utility>

#include <csignal>
#include <unistd.h>

namespace leafwright::local_page {

namespace {

// A listening tab and each connection that a browser keeps hold a thread; a slow one must not hold
// the last.
constexpr std::size_t threads = 64;
constexpr std::chrono::seconds longest_pause{5}; // between two bytes of a request
constexpr std::chrono::seconds longest_body{20}; // for all of a body
constexpr std::chrono::milliseconds look_pause{250};

double seconds_now() {
  const std::chrono::duration<double> since = std::chrono::steady_clock::now().time_since_epoch();
  return since.count();
}

Request request_of(const httplib::Request& from) {
  Request request;
  request.method = from.method;
  request.path = from.target.substr(0, from.target.find('?')); // as sent: nothing decoded
  request.decoded_path = from.path;
  for (const auto& [name, value] : from.params) request.query.emplace_back(name, value);
  // Of a header that comes twice there is no telling which counts.
  const auto header = [&](const char* name) {
    return from.get_header_value_count(name) == 1 ? from.get_header_value(name) : std::string();
  };
  request.host = header("Host");
  request.origin = header("Origin");
  request.fetch_site = header("Sec-Fetch-Site");
  request.cookie = header("Cookie");
  request.type = header("Content-Type");
  request.known_mark = header("If-None-Match");
  if (from.get_header_value_count("Origin") > 1) request.origin = "several";
  return request;
}

void send(Response response, httplib::Response& to) {
  add_safe_headers(response);
  to.status = response.status;
  for (const auto& [name, value] : response.headers) to.set_header(name, value);
  to.set_content(response.body, response.type);
}

// The two addresses of this machine, with one page behind them.
class Server {
 public:
  Server(Guard& guard, Page& page, Events& events, std::string data_folder)
      : guard_(guard), page_(page), events_(events), data_folder_(std::move(data_folder)) {}

  void prepare(httplib::Server& server) {
    server.new_task_queue = [] { return new httplib::ThreadPool(threads); };
    server.set_payload_max_length(most_body_bytes);
    server.set_read_timeout(longest_pause);
    server.set_write_timeout(longest_pause);
    server.set_keep_alive_max_count(1000);
    // Before a body is read: who may not ask is not listened to.
    server.set_pre_routing_handler([this](const httplib::Request& from, httplib::Response& to) {
      if (auto instead = guard_.stops(request_of(from), seconds_now())) {
        send(std::move(*instead), to);
        // What was not read must not be taken for the next request.
        to.set_header("Connection", "close");
        return httplib::Server::HandlerResponse::Handled;
      }
      return httplib::Server::HandlerResponse::Unhandled;
    });
    server.Get(".*", [this](const httplib::Request& from, httplib::Response& to) {
      const Request request = request_of(from);
      if (request.path == "/api/events") return stream(to);
      const bool api = request.path.starts_with("/api/");
      send(api ? page_.answer(request) : asset(data_folder_, request), to);
    });
    server.Post(".*", [this](const httplib::Request& from, httplib::Response& to,
                             const httplib::ContentReader& read) { post(from, to, read); });
    server.set_error_handler([](const httplib::Request&, httplib::Response& to) {
      if (!to.body.empty()) return;
      const int status = to.status;
      send(refusal(status, status == 413 ? "This is too much at once." : "This was not understood.",
                   "Go back to the page."),
           to);
    });
    server.set_exception_handler(
        [](const httplib::Request&, httplib::Response& to, const std::exception_ptr&) {
          send(refusal(500, "The program could not do this.",
                       "Nothing was lost: undo the last change, or reload the page."),
               to);
        });
  }

 private:
  void post(const httplib::Request& from, httplib::Response& to,
            const httplib::ContentReader& read) {
    Request request = request_of(from);
    const double until = seconds_now() + static_cast<double>(longest_body.count());
    const bool whole = read([&](const char* data, std::size_t length) {
      if (request.body.size() + length > most_body_bytes || seconds_now() > until) return false;
      request.body.append(data, length);
      return true;
    });
    if (!whole) {
      send(refusal(413, "This is too much at once, or came too slowly.", "Send less of it."), to);
      to.set_header("Connection", "close");
      return;
    }
    send(page_.answer(request), to);
  }

  void stream(httplib::Response& to) {
    std::shared_ptr<Events::Listener> listener = events_.listen();
    if (!listener) return send(refusal(503, "Too many tabs are open.", "Close one of them."), to);
    Response head;
    add_safe_headers(head);
    for (const auto& [name, value] : head.headers) to.set_header(name, value);
    to.set_chunked_content_provider(
        "text/event-stream",
        [this, listener](std::size_t, httplib::DataSink& sink) {
          const std::string words = events_.next(*listener);
          if (words.empty()) return false;
          return sink.write(words.data(), words.size());
        },
        [this, listener](bool) { events_.leave(listener); });
  }

  Guard& guard_;
  Page& page_;
  Events& events_;
  std::string data_folder_;
};

// Where there is a screen and a program that knows the maker's browser.
void open_browser(const std::string& address) {
  if (std::getenv("DISPLAY") == nullptr && std::getenv("WAYLAND_DISPLAY") == nullptr) return;
  app::open_with_system(address);
}

// A folder stands for its project file: project.xml, or the only XML in it.
std::string project_in(const std::string& path) {
  namespace fs = std::filesystem;
  std::error_code failed;
  if (!fs::is_directory(path, failed)) return path;
  const fs::path usual = fs::path(path) / "project.xml";
  if (fs::exists(usual, failed)) return usual.string();
  std::string only;
  for (const auto& entry : fs::directory_iterator(path, failed)) {
    if (entry.path().extension() != ".xml") continue;
    if (!only.empty()) return usual.string();
    only = entry.path().string();
  }
  return only.empty() ? usual.string() : only;
}

} // namespace

int serve_local_page(const std::string& path, const PageSettings& wanted,
                     app::RenderSettings& settings, app::Environment& environment) {
  std::signal(SIGPIPE, SIG_IGN); // a browser that goes away ends nothing
  // Divides before any thread is begun.
  auto work = std::make_unique<WorkProcess>(
      [&settings](const std::string& order, const WorkProcess::Tell& tell) {
        do_order(order, tell, settings);
      });
  const std::string project = project_in(path);
  const ProjectLock lock(project);
  if (lock.held_elsewhere()) {
    app::report(fmt::format("“{}” is open on another page already; go on there, or stop that "
                            "program first",
                            project),
                environment);
    return app::NotWritten;
  }
  Events events;
  Page page(project, settings, *work, events);

  httplib::Server first, second;
  // An answer goes out at once: its head and body are two writes. Of the sockets to be made.
  for (httplib::Server* one : {&first, &second}) one->set_tcp_nodelay(true);
  int port = wanted.port;
  const bool bound = port == 0 ? (port = first.bind_to_any_port("127.0.0.1")) > 0
                               : first.bind_to_port("127.0.0.1", port);
  if (!bound) {
    app::report(fmt::format("the port {} is taken; give another to --port", wanted.port),
                environment);
    return app::NotWritten;
  }
  std::string token = random_digits(20);
  Guard guard(port, token, random_digits(20));
  Server server(guard, page, events, settings.data_folder);
  server.prepare(first);
  server.prepare(second);
  const bool both = second.bind_to_port("::1", port);

  std::jthread looking([&](const std::stop_token& stop) {
    while (!stop.stop_requested()) {
      page.look_round(seconds_now());
      std::this_thread::sleep_for(look_pause);
    }
  });
  std::thread on_second;
  if (both) on_second = std::thread([&] { second.listen_after_bind(); });
  const auto say_address = [&] {
    environment.out << fmt::format("{}/?token={}\n", guard.address(), token) << std::flush;
  };
  say_address();
  environment.error << "The page is open to this machine alone; stop with Ctrl-C.\n" << std::flush;
  if (wanted.browser) open_browser(fmt::format("{}/?token={}", guard.address(), token));
  std::thread keys;
  if (wanted.listens_to_keys)
    keys = std::thread([&] {
      char one = 0;
      while (::read(STDIN_FILENO, &one, 1) == 1) {
        if (one != '\n') continue;
        token = random_digits(20);
        guard.renew(token);
        say_address();
      }
    });
  const bool served = first.listen_after_bind();
  events.end();
  work.reset(); // what it tells goes to the page
  second.stop();
  if (on_second.joinable()) on_second.join();
  if (keys.joinable()) keys.detach();
  return served ? app::Done : app::NotWritten;
}

} // namespace leafwright::local_page
