// A server on a socket in a folder of its own, with its loop on two threads.
#pragma once

#include "daemon/socket/server.hpp"
#include "tests/protocol/conversation.hpp"
#include "tests/socket/plain_client.hpp"

#include <csignal>
#include <future>
#include <sys/stat.h>
#include <thread>

namespace barmkeep::tests {

class Folder {
public:
    Folder() {
        std::string pattern = (std::filesystem::temp_directory_path() / "bk-XXXXXX").string();
        if (::mkdtemp(pattern.data()) == nullptr)
            throw std::runtime_error("no temporary folder");
        path = pattern;
    }
    ~Folder() { std::filesystem::remove_all(path); }
    Folder(const Folder&) = delete;
    Folder& operator=(const Folder&) = delete;

    std::filesystem::path path;
};

class CellarSocket {
public:
    explicit CellarSocket(const protocol::Limits& limits = {},
                          socket::ServerOptions options = own())
        : CellarSocket(limits, std::move(options), [this] {
              return socket::Bound::at({path(), 0600, std::nullopt});
          }) {}
    CellarSocket(const protocol::Limits& limits, socket::ServerOptions options,
                 const std::function<socket::Bound()>& bind) {
        add_spec_examples(methods);
        held.add_to(methods, "example.hold");
        protocol::add_protocol_methods(methods);
        const auto service = std::make_shared<const protocol::Service>(
            protocol::Service{methods, limits, {"0.0", path().string()}, {}, {}});
        server = std::make_unique<socket::Server>(loop, service, bind(), std::move(options));
        server->start();
        thread_ = std::jthread([this] { loop.run(2); });
    }
    ~CellarSocket() {
        server->close_all();
        loop.stop();
    }

    /// Options under which the test's own user may do everything.
    static socket::ServerOptions own() {
        socket::ServerOptions options;
        options.access.owner = ::geteuid();
        options.name_of = [](uid_t) {
            return std::optional<std::string>{"anna"};
        };
        return options;
    }
    std::filesystem::path path() const { return folder.path / "socket"; }

    Folder folder;
    MethodTable methods;
    Held held;
    socket::Loop loop;
    std::unique_ptr<socket::Server> server;

private:
    std::jthread thread_;
};

inline std::string request(int id, std::string_view method, std::string_view params = "{}") {
    return R"({"jsonrpc":"2.0","id":)" + std::to_string(id) + R"(,"method":")" +
           std::string(method) + R"(","params":)" + std::string(params) + "}";
}

} // namespace barmkeep::tests
