#include "daemon/ledger/check.hpp"

#include "daemon/ledger/digest.hpp"
#include "daemon/ledger/limits.hpp"
#include "daemon/ledger/row_checksum.hpp"

#include <fmt/format.h>

namespace barmkeep::ledger {
namespace {

constexpr std::size_t faults_max = 100;        // enough to see what is wrong
constexpr std::int64_t lines_a_report = 10000; // some milliseconds' work

struct Sum {
    std::int64_t steps = 0;
    std::int64_t value = 0;
    bool operator==(const Sum&) const = default;
};

/// Adds the journal up and notes what does not agree.
class Audit {
public:
    Audit(const View& view, const Call& call)
        : view_{view}, call_{call}, steps_{view.number("SELECT count(*) + 1 FROM line")} {}

    contract::LedgerCheck::Result result() {
        report("adding up the journal");
        add_up_lines();
        report("comparing balances and entries");
        compare_balances();
        check_entries();
        check_digests();
        check_rows();
        check_reservations();
        decode_lots();
        report("checking the store's file");
        ask_store("PRAGMA integrity_check");
        ask_store("PRAGMA foreign_key_check");
        contract::LedgerCheck::Result result;
        result.entries = view_.number("SELECT count(*) FROM entry");
        result.lots = view_.number("SELECT count(*) FROM lot");
        result.sound = faults_.empty();
        result.faults = std::move(faults_);
        result.oddities = std::move(oddities_);
        return result;
    }

private:
    void fault(std::string sentence) {
        if (faults_.size() < faults_max)
            faults_.push_back({std::move(sentence), {}, {}});
    }
    void oddity(std::string sentence, const LotCode& lot, std::string place) {
        if (oddities_.size() < faults_max)
            oddities_.push_back({std::move(sentence), lot, std::move(place)});
    }

    /// Each digest of the journal's chain, made again.
    void check_digests() {
        compare_digests(view_, [&](std::int64_t entry, bool is_right) {
            if (entry % lines_a_report == 0)
                report("checking the journal's digests");
            if (!is_right)
                fault(fmt::format("Entry {} was changed outside the program: its digest does not "
                                  "fit.",
                                  entry));
        });
    }

    /// What may change: lots, brew days and records.
    void check_rows() {
        for (std::string& sentence : compare_checksums(view_))
            fault(std::move(sentence));
    }

    /// Facts of lots that no longer fit the rules of requests: they are read all the same.
    void decode_lots() {
        view_.each("SELECT lot.number, good.class, lot.facts FROM lot "
                   "JOIN good ON good.number = lot.good",
                   [&](const Row& row) {
                       std::int64_t number = 0;
                       contract::Category category{};
                       std::string facts;
                       take_row(row, number, category, facts);
                       if (facts == "{}")
                           return;
                       ParseContext context;
                       (void)Codec<contract::Facts>::read(parse_json(facts), context);
                       for (const FieldError& error : context.faults())
                           oddity(error.message, LotCode{contract::lot_letter(category), number},
                                  "facts" + error.pointer);
                   });
    }

    /// Sends the progress, and stops if asked to.
    void report(std::string_view doing) {
        send_progress(call_, static_cast<double>(lines_read_), static_cast<double>(steps_), doing);
        stop_if_cancelled(call_.cancelled);
    }

    void add_up_lines() {
        view_.each("SELECT entry, lot, quantity, value FROM line ORDER BY entry, position",
                   [this](const Row& row) {
                       if (++lines_read_ % lines_a_report == 0)
                           report("adding up the journal");
                       std::int64_t entry = 0;
                       std::int64_t lot = 0;
                       Sum line;
                       take_row(row, entry, lot, line.steps, line.value);
                       add(entry, lot, line);
                   });
    }

    void add(std::int64_t entry, std::int64_t lot, const Sum& line) {
        Sum& sum = sums_[lot];
        sum = {add_checked(sum.steps, line.steps), add_checked(sum.value, line.value)};
        if (sum.steps < 0 || sum.value < 0 || (sum.steps == 0 && sum.value != 0))
            fault(fmt::format("Entry {} leaves lot {} at {}.", entry, code_of(lot),
                              text_of(lot, sum)));
    }

    /// The lot's code as it stands on lids and in lists.
    [[nodiscard]] std::string code_of(std::int64_t lot) const {
        const auto category = view_.first("SELECT good.class FROM lot JOIN good "
                                          "ON good.number = lot.good WHERE lot.number = ?",
                                          take_one<contract::Category>, lot);
        return category ? to_text(LotCode{contract::lot_letter(*category), lot})
                        : fmt::format("number {}", lot);
    }
    [[nodiscard]] std::string text_of(std::int64_t lot, const Sum& sum) const {
        const auto measure = view_.first("SELECT good.measure FROM lot JOIN good "
                                         "ON good.number = lot.good WHERE lot.number = ?",
                                         take_one<Measure>, lot);
        return fmt::format("{} worth {}", to_text(Amount{sum.steps, measure.value_or(Measure{})}),
                           to_text(Money{sum.value}));
    }

    void compare_balances() {
        view_.each("SELECT lot.number, balance.quantity, balance.value FROM lot "
                   "LEFT JOIN balance ON balance.lot = lot.number",
                   [this](const Row& row) {
                       std::int64_t lot = 0;
                       std::optional<std::int64_t> steps;
                       std::optional<std::int64_t> value;
                       take_row(row, lot, steps, value);
                       const Sum& sum = sums_[lot];
                       if (!steps || !value)
                           fault(fmt::format("Lot {} has no balance.", code_of(lot)));
                       else if (!(Sum{*steps, *value} == sum))
                           fault(fmt::format("Lot {} has {} by its balance, but {} by the journal.",
                                             code_of(lot), text_of(lot, {*steps, *value}),
                                             text_of(lot, sum)));
                   });
    }

    void check_entries() {
        if (view_.number("SELECT count(*) = coalesce(max(sequence), 0) FROM entry") == 0)
            fault("The numbers of the entries have a gap.");
        for (const auto entry :
             view_.all("SELECT entry FROM line JOIN entry "
                       "ON entry.sequence = line.entry WHERE kind IN ('converted', 'split') "
                       "GROUP BY entry HAVING sum(value) <> 0",
                       take_one<std::int64_t>))
            fault(fmt::format("Conversion {} made or lost value.", entry));
        // A counter-entry has the lines it undoes, negated: together they come to nothing.
        for (const auto entry : view_.all("SELECT counter.sequence FROM entry AS counter "
                                          "JOIN line ON line.entry IN (counter.sequence, "
                                          "counter.undoes) WHERE counter.undoes IS NOT NULL "
                                          "GROUP BY counter.sequence, line.lot "
                                          "HAVING sum(quantity) <> 0 OR sum(value) <> 0",
                                          take_one<std::int64_t>))
            fault(fmt::format("Entry {} does not undo the entry that it names.", entry));
    }

    void check_reservations() {
        for (const auto lot : view_.all("SELECT reservation.lot FROM reservation "
                                        "JOIN balance ON balance.lot = reservation.lot "
                                        "GROUP BY reservation.lot "
                                        "HAVING sum(reservation.quantity) > balance.quantity",
                                        take_one<std::int64_t>))
            fault(fmt::format("More of lot {} is reserved than there is.", code_of(lot)));
        for (const auto brew : view_.all("SELECT DISTINCT number FROM reservation "
                                         "JOIN brew ON number = brew WHERE state <> 'planned'",
                                         take_one<std::int64_t>))
            fault(fmt::format("Brew day {} is over and still has stock reserved.", brew));
    }

    void ask_store(std::string_view question) {
        stop_if_cancelled(call_.cancelled);
        view_.each(question, [&](const Row& row) {
            const Value answer = row.value(0);
            const auto* text = std::get_if<std::string>(&answer);
            if (text == nullptr || *text != "ok")
                fault(fmt::format("The check of the database file ({}) found: {}.",
                                  question.substr(7), text != nullptr ? *text : "a row"));
        });
    }

    const View& view_;
    const Call& call_;
    const std::int64_t steps_; ///< each line, and the check of the file
    std::int64_t lines_read_ = 0;
    std::map<std::int64_t, Sum> sums_;
    std::vector<contract::CheckFinding> faults_;
    std::vector<contract::CheckFinding> oddities_;
};

} // namespace

contract::LedgerCheck::Result check_ledger(const View& view, const Call& call) {
    return Audit{view, call}.result();
}

void stop_if_cancelled(const std::stop_token& cancelled) {
    if (cancelled.stop_requested())
        throw Error(ErrorKind::cancelled, "cancelled", "Stopped as asked.");
}

} // namespace barmkeep::ledger
