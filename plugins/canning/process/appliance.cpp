#include "plugins/canning/process/appliance.hpp"

#include <algorithm>
#include <cctype>

namespace barmkeep::canning {
namespace {

struct Refusal {
    Appliance appliance;
    std::string_view why;
};
constexpr std::array refusals{
    Refusal{Appliance::boiling_water_bath,
            "Never can wort in a boiling-water bath: it is a low-acid food (above pH 4.6), and "
            "boiling water does not kill the spores of C. botulinum. [S9 S10 S11]"},
    Refusal{Appliance::steam_canner, "Never can wort in an atmospheric steam canner: it is for "
                                     "food at pH 4.6 or below only, and "
                                     "wort lies above. [S95]"},
    Refusal{
        Appliance::oven,
        "Never can in an oven: dry heat is slow, jars may shatter, and their contents cannot get "
        "hotter than boiling. [S96]"},
    Refusal{Appliance::open_kettle,
            "Never can in an open kettle: the jars themselves are not processed. [S96]"},
    Refusal{Appliance::multicooker,
            "Never can in an electric multi-cooker, with or without a canning button: no pressure "
            "process is published for one. [S94]"},
    Refusal{Appliance::pressure_saucepan,
            "Never can in a pressure saucepan or cooker too small for four upright quart jars: it "
            "heats up and cools down too quickly. [S97 S98 S99]"},
    Refusal{Appliance::microwave,
            "Never can in a microwave oven: low-acid food needs a pressure canner. [S9 S10 S11]"},
    Refusal{Appliance::dishwasher,
            "Never can in a dishwasher: low-acid food needs a pressure canner. [S9 S10 S11]"},
    Refusal{Appliance::other, "Low-acid food needs a pressure canner made for it. [S9 S10 S11]"},
};

/// A name as single words, in lower case.
struct Name {
    std::string_view words;
    Appliance appliance;
};
constexpr std::array names{
    Name{"water bath", Appliance::boiling_water_bath},
    Name{"waterbath", Appliance::boiling_water_bath},
    Name{"boiling water", Appliance::boiling_water_bath},
    Name{"boiling bath", Appliance::boiling_water_bath},
    Name{"bwb", Appliance::boiling_water_bath},
    Name{"hot bath", Appliance::boiling_water_bath},
    Name{"steam canner", Appliance::steam_canner},
    Name{"steam canning", Appliance::steam_canner},
    Name{"atmospheric", Appliance::steam_canner},
    Name{"oven", Appliance::oven},
    Name{"open kettle", Appliance::open_kettle},
    Name{"multicooker", Appliance::multicooker},
    Name{"multi cooker", Appliance::multicooker},
    Name{"electric pressure cooker", Appliance::multicooker},
    Name{"electric cooker", Appliance::multicooker},
    Name{"slow cooker", Appliance::multicooker},
    Name{"rice cooker", Appliance::multicooker},
    Name{"canning button", Appliance::multicooker},
    Name{"canning program", Appliance::multicooker},
    Name{"canning programme", Appliance::multicooker},
    Name{"canning mode", Appliance::multicooker},
    Name{"pressure saucepan", Appliance::pressure_saucepan},
    Name{"microwave", Appliance::microwave},
    Name{"dishwasher", Appliance::dishwasher},
    Name{"dish washer", Appliance::dishwasher},
};
constexpr std::array denials{"never",  "not",     "no",    "nor",  "without", "instead",
                             "rather", "neither", "avoid", "dont", "isnt",    "cannot"};
constexpr std::size_t denial_reach = 5; // words

/// Words in lower case; the end of a clause is a word of its own.
std::vector<std::string> words_of(std::string_view text) {
    std::vector<std::string> words(1);
    for (const char one : text) {
        const auto letter = static_cast<unsigned char>(one);
        if (letter == '\'')
            continue; // "don't" is one word
        if (std::isalnum(letter) != 0 || letter >= 0x80)
            words.back() += static_cast<char>(std::tolower(letter));
        else if (!words.back().empty())
            words.emplace_back();
        if (std::string_view(".;:!?").find(one) != std::string_view::npos) {
            words.back() = ".";
            words.emplace_back();
        }
    }
    return words;
}

/// Whether the words of a name stand at a place; the last may have an ending ("ovens").
bool stands_at(const std::vector<std::string>& words, std::size_t place, std::string_view name) {
    for (;;) {
        const auto end = std::min(name.find(' '), name.size());
        const auto word = name.substr(0, end);
        if (place >= words.size())
            return false;
        const bool is_last = end == name.size();
        if (words[place] != word && !(is_last && words[place] == std::string(word) + "s"))
            return false;
        if (is_last)
            return true;
        name.remove_prefix(end + 1);
        ++place;
    }
}

bool is_denied(const std::vector<std::string>& words, std::size_t place) {
    for (std::size_t back = 1; back <= std::min(denial_reach, place); ++back) {
        const std::string& word = words[place - back];
        if (word == ".")
            return false;
        if (std::ranges::find(denials, word) != denials.end())
            return true;
    }
    return false;
}

} // namespace

void require_pressure_canner(Appliance appliance, std::string_view pointer) {
    const auto* refusal = std::ranges::find(refusals, appliance, &Refusal::appliance);
    if (refusal == refusals.end())
        return;
    throw Error(ErrorKind::params, to_string(appliance), refusal->why,
                "Use a pressure canner, or freeze the starter wort instead.", pointer);
}

std::optional<Appliance> appliance_named_in(std::string_view text) {
    const auto words = words_of(text);
    for (std::size_t place = 0; place < words.size(); ++place)
        for (const Name& name : names)
            if (stands_at(words, place, name.words) && !is_denied(words, place))
                return name.appliance;
    return std::nullopt;
}

} // namespace barmkeep::canning
