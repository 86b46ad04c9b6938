// One call of a plugin's method, as the method sees it.
#pragma once

#include "sdk/contract/ledger.hpp"
#include "sdk/plugin/host.hpp"

#include <atomic>

namespace barmkeep::plugin {

/// Lives as long as the call; a method that hands it to another thread waits for that thread.
/// Thread safety: any thread.
///
/// Methods called through it are called for the same person, end with the same cancellation and
/// count as one plugin deeper.
class PluginCall final : public Requester {
public:
    PluginCall(const barmkeep_host& host, barmkeep_call_number number, std::string caller,
               std::string key, Instant arrived)
        : Requester{host, number}, caller_{std::move(caller)}, key_{std::move(key)}, arrived_{
                                                                                         arrived} {}

    /// Who asks, for display.
    [[nodiscard]] const std::string& caller() const noexcept { return caller_; }
    /// The request key of a writing method; empty if the caller gave none.
    [[nodiscard]] const std::string& key() const noexcept { return key_; }

    /// When the request arrived, by the host's clock.  What it records happened then; the time now,
    /// Host::now(), is later if the request waited.
    [[nodiscard]] Instant arrived() const noexcept { return arrived_; }

    /// Whether the outcome is no longer wanted.  Long work asks now and then.
    [[nodiscard]] bool cancelled() const noexcept;
    /// Throws Error(cancelled) if so: the short way to end.
    void throw_if_cancelled() const;
    /// Sends the caller the progress: `done` of `total` (0 if that is unknown).
    void progress(double done, double total, std::string_view message) const;

    /// Makes the one write of a writing method, so that the request, repeated with its key, writes
    /// once and is answered alike.
    ///
    /// `build` makes the params of M from the state of the cellar.  If the request was done before,
    /// the stored answer of M is returned and `build` is not run, because the state has changed
    /// since. So the method's own answer must be made of its params and of what `once` returns, and
    /// of nothing else.  A method that has several things to write puts them in one
    /// contract::LedgerBatch.
    ///
    /// If the ledger refuses because a record has another version by now (two wrote at once),
    /// `build` is run again on the new state, a few times.  So nobody holds a lock while the host
    /// is called.
    ///
    /// At most once in a call; a second time throws Error(internal).  Throws the Error of M, and
    /// Error(params) for a key too long to carry two more letters.
    template <Method M, class Build>
    [[nodiscard]] typename M::Result once(Build build) const {
        begin_writing();
        const std::string inner = key_.empty() ? std::string{} : inner_key();
        if (!inner.empty()) {
            const auto before = call<contract::LedgerRecall>({.of = inner});
            if (before.done)
                return understood<typename M::Result>(M::about.name, before.answer);
        }
        for (int attempt = 1;; ++attempt) {
            try {
                return call<M>(build(), inner);
            } catch (const Error& error) {
                if (error.reason() != "version_changed" || attempt == attempts_max)
                    throw;
            }
        }
    }

private:
    static constexpr int attempts_max = 100;

    void begin_writing() const;
    [[nodiscard]] std::string inner_key() const;

    std::string caller_;
    std::string key_;
    Instant arrived_;
    mutable std::atomic<bool> has_written_ = false;
};

} // namespace barmkeep::plugin
