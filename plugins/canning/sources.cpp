#include "plugins/canning/sources.hpp"

#include <algorithm>
#include <array>

namespace barmkeep::canning {
namespace {

constexpr std::array table{
    Source{"S1", "USDA Complete Guide to Home Canning, AIB 539, rev. 1994, guide 5"},
    Source{"S2", "Michigan State University Extension, Preserving Food Safely 01600478"},
    Source{"S3", "PNW 421, Using and Caring for Your Pressure Canner"},
    Source{"S4", "a jar maker's mini guide to canning, p. 20"},
    Source{"S6", "USDA Complete Guide, AIB 539, rev. 1994, front matter, Caution"},
    Source{"S9", "Virginia Cooperative Extension 348-585, Pressure Canning"},
    Source{"S10", "Codex CAC/RCP 23-1979, section II"},
    Source{"S11", "Canadian Food Inspection Agency, Thermal Process Control Policy"},
    Source{"S13", "NDSU Extension, Play it Safe: Changes and Substitutions"},
    Source{"S14", "Michigan State University Extension 01600949, Using Pressure Canners"},
    Source{"S15", "Michigan State University Extension HNI97, Pressure Canning Basics"},
    Source{"S16", "two household pressure canner makers' manuals, operating steps"},
    Source{"S17", "Michigan State University Extension 01600949, steps 6 and 7"},
    Source{"S18", "Andress, NCHFP slide set Pressure Canning, slide 31, as quoted"},
    Source{"S19", "University of Minnesota Extension, Canning Basics 8"},
    Source{"S20", "Michigan State University Extension, Preserving Food Safely 01600593"},
    Source{"S21", "Kansas State Extension, You Asked It"},
    Source{"S22", "USDA Complete Guide, rev. 2009, Controlling Headspace, as reproduced"},
    Source{"S23", "UC ANR Master Food Preservers Orange County, Canning"},
    Source{"S24", "USDA Complete Guide, rev. 1994, Storing Canned Foods"},
    Source{"S25", "consumer advice of 21 Aug 2013, issuer not shown"},
    Source{"S26", "University of Idaho Extension column quoting NCHFP on lids"},
    Source{"S27", "USDA AIB 410, 1977, closures"},
    Source{"S29", "Iowa State University Extension, Greene County, dial gauges"},
    Source{"S30", "Iowa State AnswerLine, 21 May 2024; PNW 421"},
    Source{"S31", "USDA ARS, Home Canning of Meat and Poultry, gauge adjustments"},
    Source{"S36", "USDA Complete Guide, rev. 1994, Identifying Spoiled Canned Food"},
    Source{"S37", "University of Georgia, So Easy to Preserve, spoilage"},
    Source{"S38", "Michigan State University Extension, Is it safe to guess on a processing time"},
    Source{"S39", "Penn State Extension, Use Tested Recipes to Preserve Foods"},
};

std::string resolved_word(std::string_view word) {
    const auto* found = std::ranges::find(table, word, &Source::key);
    if (found == table.end())
        return std::string(word);
    return std::string(found->title) + " [" + std::string(found->key) + "]";
}

} // namespace

std::span<const Source> sources() noexcept {
    return table;
}

std::string resolved(std::string_view keys) {
    std::string text;
    bool after_title = false;
    while (!keys.empty()) {
        const auto end = std::min(keys.find(' '), keys.size());
        const std::string word = resolved_word(keys.substr(0, end));
        if (!text.empty())
            text += after_title ? "; " : " ";
        text += word;
        after_title = word.ends_with(']');
        keys.remove_prefix(std::min(end + 1, keys.size()));
    }
    return text;
}

} // namespace barmkeep::canning
