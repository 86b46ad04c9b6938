// The reader of a document: collects every fault with its place, instead of stopping at the first.
#pragma once

#include "sdk/method/error.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace barmkeep {

class ParseContext {
public:
    /// `check` is for requests: every rule holds, and an unknown member is a slip.  `decode` is for
    /// what was stored or answered: bounds do not count, unknown members are passed over, and an
    /// optional member that cannot be read counts as absent.  What decoding passed over is kept as
    /// an oddity.
    enum class Mode { check, decode };

    ParseContext() = default;
    explicit ParseContext(Mode mode) : mode_{mode} {}
    [[nodiscard]] Mode mode() const noexcept { return mode_; }
    [[nodiscard]] bool checks_rules() const noexcept { return mode_ == Mode::check; }

    /// Notes a fault at the present place.  When it is full, the rest of the faults is left out.
    void fault(std::string_view reason, std::string_view message, std::string_view hint = {});

    /// More than anyone reads; a document of slips must not become a larger one of faults.
    static constexpr std::size_t faults_max = 50;
    [[nodiscard]] bool is_full() const noexcept { return faults_.size() >= faults_max; }
    [[nodiscard]] bool clean() const noexcept { return faults_.empty(); }
    [[nodiscard]] const std::vector<FieldError>& faults() const noexcept { return faults_; }
    /// Makes oddities of the errors noted since there were `count`.  For decoding only.
    void forgive_since(std::size_t count);
    void oddity(std::string_view reason, std::string_view message);
    [[nodiscard]] const std::vector<FieldError>& oddities() const noexcept { return oddities_; }
    /// Throws Error(params) with all faults, if there are any.
    void throw_faults() const;

    /// Enters a member or element for the life of the guard.
    class Step {
    public:
        Step(ParseContext& reading, std::string_view member);
        Step(ParseContext& reading, std::size_t index);
        ~Step();
        Step(const Step&) = delete;
        Step& operator=(const Step&) = delete;

    private:
        ParseContext& reading_;
        std::size_t length_before_;
    };

private:
    Mode mode_ = Mode::check;
    std::string pointer_;
    std::vector<FieldError> faults_;
    std::vector<FieldError> oddities_;
};

} // namespace barmkeep
