// Throws bytes at a session and looks at what it says.
//
// The first byte of the input sets how the rest is cut into reads; a zero byte in it ends a read
// and lets the oldest held call answer.
#include "tests/protocol/conversation.hpp"

// The parser is compiled in, so that the fuzzer sees which of its branches were taken.
#include <boost/json/src.hpp>

#include <cstdlib>

namespace barmkeep::tests {
namespace {

void demand(bool holds) {
    if (!holds)
        std::abort();
}

void check_reply(const json::value& reply) {
    const auto& object = reply.as_object();
    demand(object.at("jsonrpc") == "2.0");
    demand(object.contains("id"));
    demand(object.contains("result") != object.contains("error"));
}

void check_line(const json::value& said) {
    if (const auto* batch = said.if_array()) {
        demand(!batch->empty());
        for (const auto& one : *batch)
            check_reply(one);
        return;
    }
    if (said.as_object().contains("method"))
        demand(!said.as_object().contains("id"));
    else
        check_reply(said);
}

protocol::Limits small_limits() {
    protocol::Limits limits;
    limits.line_bytes_max = 2000;
    limits.batch_length_max = 8;
    limits.in_flight_max = 3;
    limits.unanswered_max = 12;
    limits.reply_bytes_max = 20'000;
    return limits;
}

void answer_one(Conversation& c) {
    if (c.held.count() == 0)
        return;
    auto one = c.held.take();
    send_progress(one.call, 1, 2, "half");
    one.done(json::value(one.params));
}

void run(std::string_view bytes) {
    Conversation c{small_limits()};
    const std::size_t step =
        bytes.empty() ? 1 : std::size_t{1} + static_cast<unsigned char>(bytes[0]);
    for (std::size_t at = 1; at < bytes.size();) {
        const std::string_view read = bytes.substr(at, step);
        const auto zero = read.find('\0');
        c.session->take(read.substr(0, zero));
        if (zero != std::string_view::npos)
            answer_one(c);
        at += zero == std::string_view::npos ? read.size() : zero + 1;
        if (at % 3 == 0)
            for (const auto& said : c.replies())
                check_line(said);
    }
    c.session->end_of_input();
    while (c.held.count() > 0)
        answer_one(c);
    for (const auto& said : c.replies())
        check_line(said);
    demand(c.session->unanswered() == 0);
    demand(c.session->is_finished());
}

} // namespace
} // namespace barmkeep::tests

extern "C" int LLVMFuzzerTestOneInput(const unsigned char* data, std::size_t size) {
    barmkeep::tests::run({reinterpret_cast<const char*>(data), size});
    return 0;
}
