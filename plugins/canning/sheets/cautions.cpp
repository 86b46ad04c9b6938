// All cautions, in full: here they are the answer.
#include "plugins/canning/sheets/parts.hpp"

namespace barmkeep::canning::sheets {

namespace {

std::string_view words_of(Moment moment) {
    switch (moment) {
    case Moment::planning:
        return "planning a load";
    case Moment::process:
        return "a process";
    case Moment::running:
        return "a load in the canner";
    case Moment::sealing:
        return "the seal test";
    case Moment::storing:
        return "stored jars";
    case Moment::opening:
        break;
    }
    return "opening a jar";
}

} // namespace

Sheet all_cautions(const CanningCautions::Params& params, const CanningCautions::Result& result) {
    SheetBuilder made("Cautions for canning wort");
    made.lead(sheet::count(static_cast<std::int64_t>(result.cautions.size()), "caution"),
              params.moment ? text(" for ", words_of(*params.moment)) : Text{},
              ", the most important first.");
    for (const Caution& caution : result.cautions)
        made.caution(caution.key, caution.text, true);
    std::vector<sheet::Fact> titles;
    for (const SourceShown& source : result.sources)
        titles.push_back({source.key, text(source.title)});
    return made.more("Titles of the sources", SheetBuilder().facts(std::move(titles)));
}

} // namespace barmkeep::canning::sheets
