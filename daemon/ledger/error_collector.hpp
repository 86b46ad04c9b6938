// All errors of a request at once, so that its sender can correct them together.
#pragma once

#include "sdk/method/error.hpp"

#include <optional>
#include <type_traits>

namespace barmkeep::ledger {

/// Runs checks one after the other, keeps what each throws, and throws all of it at the end.
///
///     ErrorCollector faults;
///     const auto day = faults.gather([&] { return day_or_today(view, params.day, "/day"); });
///     faults.gather([&] { check_money(params.paid, "/paid"); });
///     faults.throw_any();
///     use(*day);
class ErrorCollector {
public:
    /// What the check answers; nothing if it threw an Error.  For one that answers nothing, whether
    /// it passed.  Any other exception goes through.
    template <class Check>
    auto gather(Check check) {
        using Answer = std::invoke_result_t<Check>;
        if constexpr (std::is_void_v<Answer>) {
            try {
                check();
                return true;
            } catch (const Error& error) {
                add(error);
                return false;
            }
        } else {
            try {
                return std::optional<Answer>{check()};
            } catch (const Error& error) {
                add(error);
                return std::optional<Answer>{};
            }
        }
    }
    void add(const Error& error);

    /// Throws one Error with all faults, in the order they were found.  It has their kind if they
    /// are all of one, else ErrorKind::params.
    void throw_any() const;

private:
    ErrorKind kind_ = ErrorKind::params;
    std::vector<FieldError> faults_;
};

} // namespace barmkeep::ledger
