#include "daemon/client/topics.hpp"

#include <algorithm>
#include <tuple>

namespace barmkeep::barm {
namespace {

constexpr std::string_view more_word = "more";

/// The place of a word among those of `members`, or npos.
std::size_t place_in(std::string_view members, std::string_view word) {
    std::size_t begin = 0;
    while (begin < members.size()) {
        const auto end = std::min(members.find(' ', begin), members.size());
        if (members.substr(begin, end - begin) == word)
            return begin;
        begin = end + 1;
    }
    return std::string_view::npos;
}

std::string_view noun_of(std::string_view method) {
    return method.substr(0, method.find('.'));
}

const Topic* topic_with_member(std::string_view member) {
    const auto& all = topics();
    const auto found = std::ranges::find_if(all, [&](const Topic& topic) {
        return place_in(topic.members, member) != std::string_view::npos;
    });
    return found == all.end() ? nullptr : &*found;
}

} // namespace

const std::vector<Topic>& topics() {
    static const std::vector<Topic> all{
        {"shelf", "Shelf: what you have, buy and use", "stock lot entry cellar.glance",
         "Plain `barm` shows what is due and what is on the shelf.  After shopping, record each "
         "good with `barm stock buy`.  When you take something, record it with `barm stock use`.  "
         "If you count something else than `barm stock list` shows, correct the lot with `barm "
         "stock recount`.  `barm entry undo` takes back a mistake."},
        {"canning", "Canning: plan a load, run it, keep the jars",
         "canning run process storage opening trace",
         "Read `barm canning cautions` first.  `barm canning plan` shows what a load takes and "
         "what is short.  `barm run start` checks the equipment and the stock, and shows the card "
         "of the run.  Log each step with `barm run log` and each gauge reading with `barm run "
         "gauge`.  `barm run status` shows what to do next.  Test the seals after 12 to 24 hours "
         "and record them with `barm run seal-test`.  Barmkeep knows no safe time or pressure: "
         "follow your canner's manual."},
        {"starters", "Starters: plan and grow the yeast", "starter yeast",
         "A few days before you brew, `barm starter plan` shows the steps, the jars to open and "
         "the water.  `barm starter make` records the first step and takes its stock.  `barm "
         "starter show` lists the steps made so far.  After pitching, `barm starter finish` ends "
         "it."},
        {"brew-days", "Brew days: plan them and reserve stock", "brew",
         "`barm brew plan` adds a brew day.  `barm brew need` sets what it takes, in stock or not; "
         "available stock is reserved at once.  `barm brew show` shows what is reserved and what "
         "is short.  After brewing, `barm brew finish` makes unused stock available again."},
        {"reminders", "Reminders: what is due and what runs low", "reminder reorder",
         "`barm reminder list` shows what is due.  `barm reminder done` ends a reminder and `barm "
         "reminder snooze` postpones it.  `barm reorder set` sets the level of a good at which a "
         "reminder to restock comes."},
        {"cost", "Cost: what a jar costs", "cost price",
         "`barm price set` records what a bought can costs.  `barm cost jar` shows what a jar of "
         "yours cost.  `barm cost compare` compares the two by the extract in them."},
        {"set-up", "Set-up: the cellar, its goods and equipment",
         "cellar good canner jar flask equipment plugin service ledger source",
         "Do this once, before the first purchase.  `barm cellar set` sets altitude, currency and "
         "time zone.  `barm good add` adds each good that you buy or make.  `barm canner set`, "
         "`barm jar set` and `barm flask set` record your equipment.  From time to time, copy the "
         "ledger with `barm ledger backup`."},
        {more_word, "More: commands of other plugins", "", "Each plugin documents its commands."},
        {"programs", "For programs: a brewer does not need these",
         "record event sheet call rpc clock ledger.batch ledger.recall",
         "Plugins and scripts use these commands.  `barm send METHOD PARAMS` calls any method with "
         "JSON, and `barm manual` prints the reference."}};
    return all;
}

const Topic* find_topic(std::string_view word) {
    const auto found = std::ranges::find(topics(), word, &Topic::word);
    return found == topics().end() ? nullptr : &*found;
}

const Topic& topic_of(std::string_view method) {
    if (const auto* own = topic_with_member(method))
        return *own;
    const auto* of_noun = topic_with_member(noun_of(method));
    return of_noun != nullptr ? *of_noun : *find_topic(more_word);
}

std::vector<const Command*> commands_of(const Catalogue& catalogue, const Topic& topic) {
    std::vector<const Command*> all;
    for (const auto& command : catalogue.commands())
        if (&topic_of(command.method.name) == &topic)
            all.push_back(&command);
    const auto order = [&](const Command* command) {
        return std::tuple(place_in(topic.members, noun_of(command->method.name)), command->noun,
                          command->verb);
    };
    std::ranges::sort(all, {}, order);
    return all;
}

} // namespace barmkeep::barm
