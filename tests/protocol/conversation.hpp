// A session in memory: lines in, lines out.
#pragma once

#include "daemon/protocol/session.hpp"
#include "tests/protocol/example_methods.hpp"

#include <atomic>

namespace barmkeep::tests {

class Conversation {
public:
    explicit Conversation(const protocol::Limits& limits = {}, Access access = Access::manage,
                          std::function<void(std::function<void()>)> run = {}) {
        add_spec_examples(methods);
        held.add_to(methods, "example.hold");
        protocol::add_protocol_methods(methods);
        auto service = std::make_shared<const protocol::Service>(
            protocol::Service{methods,
                              limits,
                              {"0.0", "/run/test.socket"},
                              std::move(run),
                              [this](const std::string& line) {
                                  faults.push_back(line);
                              }});
        session = protocol::Session::open(service, Caller{"anna", access, {}}, [this] { ++wakes; });
    }

    /// Sends one line.
    void send(std::string_view line) { session->take(std::string(line) + '\n'); }
    /// Sends a call of a method, its params already JSON.
    void call(std::string_view id, std::string_view method, std::string_view params = "{}") {
        send(R"({"jsonrpc":"2.0","id":)" + std::string(id) + R"(,"method":")" +
             std::string(method) + R"(","params":)" + std::string(params) + "}");
    }
    void hold(int id) { call(std::to_string(id), "example.hold"); }

    /// Everything said since the last time, as text.
    std::string said() {
        std::string all;
        while (const auto bytes = session->next_output())
            all += *bytes;
        return all;
    }
    /// The same, line by line.
    std::vector<json::value> replies() {
        std::vector<json::value> all;
        const std::string text = said();
        for (std::size_t at = 0; at < text.size();) {
            const auto end = text.find('\n', at);
            all.push_back(parse_json(std::string_view(text).substr(at, end - at)));
            at = end + 1;
        }
        return all;
    }

    ManualClock clock{parse_instant("2026-03-14T08:00:00Z")};
    MethodTable methods{clock};
    Held held;
    std::vector<std::string> faults; ///< what the service reported of faults of the program
    std::atomic<int> wakes = 0;
    std::shared_ptr<protocol::Session> session;
};

/// The reason word of an error reply or of a closing notification; empty for anything else.
inline std::string reason_of(const json::value& said) {
    const auto& object = said.as_object();
    if (const auto* error = object.if_contains("error"))
        return std::string(error->at("data").at("reason").as_string());
    if (const auto* method = object.if_contains("method");
        method != nullptr && method->as_string() == protocol::closing_notification)
        return std::string(object.at("params").at("reason").as_string());
    return {};
}

inline std::string hint_of(const json::value& reply) {
    return std::string(reply.at("error").at("data").at("hint").as_string());
}

inline std::int64_t code_in(const json::value& reply) {
    return reply.at("error").at("code").as_int64();
}

} // namespace barmkeep::tests
