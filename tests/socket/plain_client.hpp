// A client made of system calls, so that the server is not tested against its own library.
#pragma once

#include "sdk/method/json.hpp"

#include <poll.h>
#include <sys/socket.h>
#include <sys/un.h>
#include <unistd.h>

#include <cstring>
#include <filesystem>
#include <optional>
#include <stdexcept>
#include <string>

namespace barmkeep::tests {

class PlainClient {
public:
    explicit PlainClient(const std::filesystem::path& path)
        : socket_{::socket(AF_UNIX, SOCK_STREAM | SOCK_CLOEXEC, 0)} {
        sockaddr_un address{};
        address.sun_family = AF_UNIX;
        std::strncpy(address.sun_path, path.c_str(), sizeof address.sun_path - 1);
        if (::connect(socket_, reinterpret_cast<sockaddr*>(&address), sizeof address) != 0)
            throw std::runtime_error(std::string("cannot connect: ") + std::strerror(errno));
    }
    ~PlainClient() { hang_up(); }
    PlainClient(const PlainClient&) = delete;
    PlainClient& operator=(const PlainClient&) = delete;

    /// False if the other side has closed.
    bool send(std::string_view bytes) {
        while (!bytes.empty()) {
            const auto sent = ::send(socket_, bytes.data(), bytes.size(), MSG_NOSIGNAL);
            if (sent < 0)
                return false;
            bytes.remove_prefix(static_cast<std::size_t>(sent));
        }
        return true;
    }
    /// Sends what fits until the other side takes no more for now.
    std::size_t send_until_stuck(std::string_view bytes, std::size_t most) {
        std::size_t total = 0;
        while (total < most) {
            const auto sent =
                ::send(socket_, bytes.data(), bytes.size(), MSG_NOSIGNAL | MSG_DONTWAIT);
            if (sent < 0)
                break;
            total += static_cast<std::size_t>(sent);
            bytes.remove_prefix(static_cast<std::size_t>(sent));
            if (bytes.empty())
                break;
        }
        return total;
    }
    /// The next line; nothing at the end.  A test that waits for ever fails instead.
    std::optional<std::string> line() {
        for (;;) {
            const auto end = buffer_.find('\n');
            if (end != std::string::npos) {
                std::string line = buffer_.substr(0, end);
                buffer_.erase(0, end + 1);
                return line;
            }
            pollfd waited{socket_, POLLIN, 0};
            if (::poll(&waited, 1, 30'000) <= 0)
                throw std::runtime_error("no line came");
            char bytes[65536];
            const auto count = ::recv(socket_, bytes, sizeof bytes, 0);
            if (count <= 0)
                return std::nullopt;
            buffer_.append(bytes, static_cast<std::size_t>(count));
        }
    }
    json::value reply() {
        const auto text = line();
        if (!text)
            throw std::runtime_error("the connection ended");
        return parse_json(*text);
    }
    json::value ask(std::string_view request) {
        send(std::string(request) + '\n');
        return reply();
    }
    void end_sending() { ::shutdown(socket_, SHUT_WR); }
    void hang_up() {
        if (socket_ >= 0)
            ::close(socket_);
        socket_ = -1;
    }

private:
    int socket_;
    std::string buffer_;
};

} // namespace barmkeep::tests
