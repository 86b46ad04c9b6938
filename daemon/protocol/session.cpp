// Taking requests, and the ends of a session.  Their calls are in session_calls.cpp.
#include "daemon/protocol/session.hpp"

#include "daemon/protocol/session_task.hpp"

#include <fmt/format.h>

namespace barmkeep::protocol {
namespace {

bool is_blank(std::string_view line) {
    return line.find_first_not_of(" \t\r") == std::string_view::npos;
}

bool speaks_http(std::string_view line) {
    return line.starts_with("GET ") || line.starts_with("POST ");
}

Error too_many_in_flight(std::size_t most) {
    return {ErrorKind::busy, "too_many_in_flight",
            fmt::format("More than {} requests of this connection wait for their answers.", most),
            "Wait for replies before sending more."};
}

Error closed() {
    return {ErrorKind::unavailable, "connection_closing", "The connection was closed before this.",
            "Connect again."};
}

Error line_too_long(std::size_t most) {
    return {ErrorKind::request, "line_too_long",
            fmt::format("A line has at most {} bytes; what follows cannot be read.", most),
            "Split the request; the limit is in x-limits of rpc.discover."};
}

} // namespace

Error stopping() {
    return {ErrorKind::unavailable, stopping_reason, "The daemon is stopping.",
            "Connect again shortly, and repeat with the same key."};
}

std::shared_ptr<Session> Session::open(std::shared_ptr<const Service> service, Caller caller,
                                       Wake wake) {
    std::shared_ptr<Session> session{
        new Session(std::move(service), std::move(caller), std::move(wake))};
    session->line_ = std::make_shared<Line>(session);
    return session;
}

Session::Session(std::shared_ptr<const Service> service, Caller caller, Wake wake)
    : service_{std::move(service)}, wake_{std::move(wake)},
      reader_{service_->limits.line_bytes_max}, caller_{std::move(caller)},
      outbox_{service_->limits.reply_bytes_max} {}

Session::~Session() = default;

void Session::take(std::string_view bytes) {
    if (is_closing())
        return;
    reader_.feed(bytes);
    take_lines();
    settle();
}

void Session::end_of_input() {
    reader_.finish();
    take_lines();
    {
        const Lock lock{mutex_};
        input_ended_ = true;
    }
    settle();
}

void Session::take_lines() {
    arrived_ = service_->methods.now();
    while (!is_closing()) {
        const auto line = reader_.next();
        if (!line)
            break;
        ++lines_taken_;
        take_line(*line);
    }
    if (!reader_.is_overlong() || is_closing())
        return;
    const Error reason = line_too_long(service_->limits.line_bytes_max);
    say(nullptr, reason);
    close(reason);
}

void Session::take_line(std::string_view line) {
    if (is_blank(line))
        return;
    if (speaks_http(line)) {
        const Error reason{ErrorKind::text, "speaks_http",
                           "This is not a web server. It speaks JSON-RPC 2.0, one request a line.",
                           "Try {\"jsonrpc\":\"2.0\",\"id\":1,\"method\":\"rpc.discover\"}."};
        say(nullptr, reason);
        return close(reason);
    }
    json::value value;
    try {
        value = parse_json(line);
    } catch (const std::invalid_argument& fault) {
        return say(nullptr, Error(ErrorKind::text, "not_json", fault.what(),
                                  "One JSON text a line, in UTF-8, without line breaks inside."));
    }
    if (const auto* elements = value.if_array())
        take_batch(*elements, line.size());
    else
        take_element(value, nullptr, 0, line.size());
}

void Session::take_batch(const json::array& elements, std::size_t bytes) {
    const std::size_t most = service_->limits.batch_length_max;
    if (elements.empty())
        return say(nullptr,
                   Error(ErrorKind::request, "empty_batch", "A batch has at least one request."));
    if (elements.size() > most)
        return say(nullptr, Error(ErrorKind::request, "batch_too_long",
                                  fmt::format("A batch has at most {} requests; this one has {}.",
                                              most, elements.size()),
                                  "Nothing of it was done. Send it in parts."));
    if (!has_places_for(elements.size())) {
        const Error reason = too_many_in_flight(service_->limits.unanswered_max);
        say(nullptr, reason);
        return close(reason);
    }
    const auto batch = std::make_shared<Batch>(elements.size());
    for (std::size_t i = 0; i < elements.size(); ++i)
        take_element(elements[i], batch, i, bytes / elements.size());
}

void Session::take_element(const json::value& element, const std::shared_ptr<Batch>& batch,
                           std::size_t place, std::size_t bytes) {
    auto read = read_request(element, service_->limits);
    if (const auto* refusal = std::get_if<Refusal>(&read)) {
        const Lock lock{mutex_};
        return deliver(lock, batch.get(), place, reply_text(refusal->id, refusal->error));
    }
    const auto task = std::make_shared<Task>();
    task->request = std::get<Request>(std::move(read));
    task->batch = batch;
    task->place = place;
    task->arrived = arrived_;
    task->bytes = bytes;
    if (const auto error = admit(task)) {
        const Lock lock{mutex_};
        deliver(lock, batch.get(), place,
                task->request.id ? reply_text(*task->request.id, *error) : std::string{});
        if (error->reason() == "too_many_in_flight")
            close(lock, *error);
        return;
    }
    if (task->passes_others())
        begin(task);
    else
        begin_waiting();
}

bool Session::has_places_for(std::size_t count) const {
    const Lock lock{mutex_};
    return unanswered_.empty() || unanswered_.size() + count <= service_->limits.unanswered_max;
}

/// Takes the task in, or returns why not.
std::optional<Error> Session::admit(const std::shared_ptr<Task>& task) {
    const std::string key = task->key();
    const Lock lock{mutex_};
    if (state_ != State::open) // an earlier request of the same batch closed it
        return closed();
    if (stopping_ && !task->passes_others())
        return stopping();
    if (unanswered_.size() >= service_->limits.unanswered_max)
        return too_many_in_flight(service_->limits.unanswered_max);
    if (!key.empty() && !by_id_.emplace(key, task).second)
        return Error(ErrorKind::request, "id_in_use",
                     "A request with this id is still in flight on this connection.",
                     "Give every request an id of its own.", "/id");
    unanswered_.insert(task);
    if (!task->request.progress_token.is_null())
        progress_tokens_.insert(id_text(task->request.progress_token));
    if (task->passes_others()) {
        ++at_work_;
    } else {
        waiting_.push_back(task);
        waiting_bytes_ += task->bytes;
    }
    return std::nullopt;
}

void Session::say(const json::value& id, const Error& error) {
    const Lock lock{mutex_};
    push(lock, reply_text(id, error));
}

bool Session::wants_input() const {
    const Lock lock{mutex_};
    const Limits& limits = service_->limits;
    if (state_ == State::closing)
        return true;
    return state_ == State::open && !input_ended_ &&
           unanswered_.size() < (limits.unanswered_max + 1) / 2 &&
           waiting_bytes_ < limits.line_bytes_max && !outbox_.is_half_full();
}

std::optional<std::size_t> Session::partial_line() const {
    if (reader_.partial_bytes() == 0 || is_closing())
        return std::nullopt;
    return lines_taken_;
}

std::optional<std::string> Session::next_output(std::size_t bytes_wanted) {
    std::vector<std::function<void()>> go_on;
    std::optional<std::string> lines;
    {
        const Lock lock{mutex_};
        lines = outbox_.pop(bytes_wanted);
        if (!outbox_.is_half_full())
            go_on.swap(for_room_);
    }
    for (const auto& one : go_on)
        one();
    return lines;
}

bool Session::is_finished() const {
    const Lock lock{mutex_};
    if (state_ == State::gone)
        return true;
    const bool done = state_ == State::closing || (input_ended_ && unanswered_.empty());
    return done && outbox_.is_empty();
}

bool Session::is_closing() const {
    const Lock lock{mutex_};
    return state_ != State::open;
}

std::size_t Session::unanswered() const {
    const Lock lock{mutex_};
    return unanswered_.size();
}

} // namespace barmkeep::protocol
