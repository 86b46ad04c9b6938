#include "daemon/ledger/methods.hpp"

#include "daemon/ledger/store_error.hpp"

namespace barmkeep::ledger {
namespace {

/// Runs `work`; whatever it throws becomes the outcome.
template <class Work>
void or_tell(const Done& done, Work work) noexcept {
    try {
        work();
    } catch (...) {
        done(error_of(std::current_exception()));
    }
}

Outcome outcome_of(const Methods::ReadWork& work, const View& view, const Call& call) noexcept {
    try {
        return work(view, call);
    } catch (...) {
        return error_of(std::current_exception());
    }
}

Error cancelled_error() {
    return {ErrorKind::cancelled, "cancelled", "The request was cancelled before it began."};
}

/// Notes in the log what is no fault of the caller's.
void note_failure(spdlog::logger& log, const std::string& method, const Outcome& outcome) {
    const auto* error = std::get_if<Error>(&outcome);
    if (error != nullptr &&
        (error->kind() == ErrorKind::internal || error->kind() == ErrorKind::unavailable))
        log.error("{} failed: {}", method, error->what());
}

} // namespace

Methods::Methods(MethodTable& table, std::shared_ptr<Writer> writer,
                 std::shared_ptr<Readers> readers, std::shared_ptr<spdlog::logger> log)
    : table_{table}, writer_{std::move(writer)}, readers_{std::move(readers)}, log_{std::move(
                                                                                   log)} {}

void Methods::add(Description description, Start start) {
    const auto sheet = sheets_.find(description.name);
    MakeSheet make = sheet == sheets_.end() ? MakeSheet{} : sheet->second;
    table_.add(std::move(description), "core", std::move(start), std::move(make));
}

void Methods::add_read(Description description, PrepareRead prepare, bool is_long) {
    const std::string name = description.name;
    add(std::move(description),
        [name, is_long, readers = readers_, log = log_, prepare = std::move(prepare)](
            const Call& call, const json::object& params, const Done& done) {
            const auto answer = [name, log, done](Outcome outcome) {
                note_failure(*log, name, outcome);
                done(std::move(outcome));
            };
            or_tell(done, [&] {
                readers->post(
                    call,
                    [work = prepare(params), call, answer](const View& view) {
                        answer(outcome_of(work, view, call));
                    },
                    [answer](const StoreError& fault) { answer(error_of(fault)); },
                    [done] { done(cancelled_error()); }, is_long);
            });
        });
}

void Methods::add_write(const Description& description, PrepareWrite prepare) {
    const std::string name = description.name;
    add(description, [name, writer = writer_, prepare = std::move(prepare)](
                         Call call, const json::object& params, const Done& done) {
        or_tell(done, [&] {
            Writer::Request request;
            request.method = name;
            request.bytes = write_json(params).size();
            request.work = prepare(params);
            // The outermost request's digest, if it came through a door that makes one.
            if (!call.key.empty() && call.digest.empty())
                call.digest = request_digest(name, params);
            request.call = std::move(call);
            request.done = done;
            writer->post(std::move(request));
        });
    });
}

} // namespace barmkeep::ledger
