#pragma once

#include <stdexcept>
#include <string>

namespace barmkeep::barm {

/// The command line cannot be understood.  Nothing was sent.
class UsageError : public std::runtime_error {
public:
    /// `hint`: what to write instead, or where the help is.
    explicit UsageError(const std::string& message, std::string hint = {})
        : std::runtime_error(message), hint_{std::move(hint)} {}
    [[nodiscard]] const std::string& hint() const noexcept { return hint_; }

private:
    std::string hint_;
};

} // namespace barmkeep::barm
