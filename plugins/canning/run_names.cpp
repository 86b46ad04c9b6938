#include "plugins/canning/run_names.hpp"

#include <array>
#include <charconv>

namespace barmkeep::canning {
namespace {

constexpr std::string_view memo_beginning = "canning run ";
constexpr std::string_view reminder_beginning = "canning-run-";

struct Ending {
    Reminds about;
    std::string_view text;
};
constexpr std::array endings{Ending{Reminds::seals, "-seals"},
                             Ending{Reminds::inspection, "-inspection"},
                             Ending{Reminds::refrigerator, "-refrigerator"}};

} // namespace

std::optional<std::int64_t> number_after(std::string_view text, std::string_view beginning) {
    if (!text.starts_with(beginning))
        return std::nullopt;
    text.remove_prefix(beginning.size());
    std::int64_t number = 0;
    const char* const end = text.data() + text.size();
    const auto read = std::from_chars(text.data(), end, number);
    if (read.ec != std::errc{} || read.ptr != end || number <= 0)
        return std::nullopt;
    return number;
}

std::string memo_of(std::int64_t run) {
    return std::string(memo_beginning) + std::to_string(run);
}

std::optional<std::int64_t> run_of_memo(const std::optional<std::string>& memo) {
    return memo ? number_after(*memo, memo_beginning) : std::nullopt;
}

std::string reminder_name(std::int64_t run, Reminds about) {
    std::string name = std::string(reminder_beginning) + std::to_string(run);
    for (const Ending& ending : endings)
        if (ending.about == about)
            name += ending.text;
    return name;
}

std::optional<RunReminder> run_reminder(std::string_view name) {
    for (const Ending& ending : endings)
        if (name.ends_with(ending.text)) {
            name.remove_suffix(ending.text.size());
            const auto run = number_after(name, reminder_beginning);
            return run ? std::optional{RunReminder{*run, ending.about}} : std::nullopt;
        }
    return std::nullopt;
}

} // namespace barmkeep::canning
