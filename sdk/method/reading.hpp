// The reader of a document: collects every fault with its place, instead of stopping at the first.
#pragma once

#include "sdk/method/error.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace barmkeep {

/// What a reader does with a member it does not know: a request's is a slip to be told; an
/// answer's comes from a newer program that has more to say.
enum class Unknown { told, passed_over };

class Reading {
public:
    Reading() = default;
    explicit Reading(Unknown unknown) : unknown_{unknown} {}
    [[nodiscard]] Unknown unknown() const noexcept { return unknown_; }

    /// Notes a fault at the present place.  When it is full, the rest of the faults is left out.
    void fault(std::string_view reason, std::string_view message, std::string_view hint = {});

    /// More than anyone reads; a document of slips must not become a larger one of faults.
    static constexpr std::size_t faults_max = 50;
    [[nodiscard]] bool is_full() const noexcept { return faults_.size() >= faults_max; }
    [[nodiscard]] bool clean() const noexcept { return faults_.empty(); }
    [[nodiscard]] const std::vector<Fault>& faults() const noexcept { return faults_; }
    /// Throws Error(params) with all faults, if there are any.
    void throw_faults() const;

    /// Enters a member or element for the life of the guard.
    class Step {
    public:
        Step(Reading& reading, std::string_view member);
        Step(Reading& reading, std::size_t index);
        ~Step();
        Step(const Step&) = delete;
        Step& operator=(const Step&) = delete;

    private:
        Reading& reading_;
        std::size_t length_before_;
    };

private:
    Unknown unknown_ = Unknown::told;
    std::string pointer_;
    std::vector<Fault> faults_;
};

} // namespace barmkeep
