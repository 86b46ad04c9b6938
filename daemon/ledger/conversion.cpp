#include "daemon/ledger/conversion.hpp"

#include "daemon/ledger/error_collector.hpp"
#include "daemon/ledger/links.hpp"
#include "daemon/ledger/posting.hpp"
#include "daemon/ledger/row_checksum.hpp"
#include "daemon/ledger/taking.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace barmkeep::ledger {
namespace {

using contract::StockConvert;

struct Output {
    GoodRow good;
    Amount amount;
    const contract::ConvertOutput& given;
};

std::string place(std::string_view list, std::size_t at, std::string_view member) {
    return fmt::format("/{}/{}/{}", list, at, member);
}

/// An output as it can be made; nothing if it has a fault.
std::optional<Output> read_output(const View& view, const contract::ConvertOutput& given,
                                  std::size_t at, Date day, ErrorCollector& faults) {
    auto good =
        faults.gather([&] { return require_good(view, given.good, place("outputs", at, "good")); });
    std::optional<Amount> amount;
    if (good) // it says how it is measured
        amount = faults.gather([&] {
            return positive(given.amount, good->good.measure, place("outputs", at, "amount"));
        });
    const bool is_canned_by_now = faults.gather([&] {
        if (given.canned)
            (void)day_or_today(view, given.canned, place("outputs", at, "canned"));
    });
    const bool is_in_order = faults.gather([&] {
        check_dates({std::nullopt, std::nullopt, given.canned.value_or(day), given.best_by},
                    place("outputs", at, "best_by"));
    });
    if (!amount || !is_canned_by_now || !is_in_order)
        return std::nullopt;
    return Output{std::move(*good), *amount, given};
}

/// Those outputs that have no fault.
std::vector<Output> read_outputs(const View& view, const StockConvert::Params& params, Date day,
                                 ErrorCollector& faults) {
    std::vector<Output> outputs;
    for (std::size_t i = 0; i < params.outputs.size(); ++i)
        if (auto output = read_output(view, params.outputs[i], i, day, faults))
            outputs.push_back(std::move(*output));
    return outputs;
}

/// The weights given, or the amounts where none are.
std::vector<double> weights_of(const std::vector<Output>& outputs) {
    std::vector<double> weights;
    std::size_t given = 0;
    bool one_measure = true;
    for (const auto& output : outputs) {
        given += output.given.weight ? 1 : 0;
        one_measure = one_measure && output.amount.measure == outputs.front().amount.measure;
        weights.push_back(output.given.weight.value_or(static_cast<double>(output.amount.steps)));
    }
    if (given != 0 && given != outputs.size())
        throw Error(ErrorKind::params, "weight_missing",
                    "Some outputs have a weight and others have none.",
                    "Give every output a weight, or none.", "/outputs");
    if (given == 0 && !one_measure)
        throw Error(
            ErrorKind::params, "weight_missing",
            "The outputs have different measures, so their amounts cannot divide the value.",
            "Give every output a weight.", "/outputs");
    return weights;
}

/// Takes what can be taken; answers its value.
Money take_inputs(Transaction& transaction, Posting& posting, const StockConvert::Params& params,
                  Date day, ErrorCollector& faults) {
    Money value;
    for (std::size_t i = 0; i < params.inputs.size(); ++i)
        faults.gather([&, &input = params.inputs[i]] {
            const Named named = require_named(transaction, input.what, place("inputs", i, "what"));
            const std::string pointer = place("inputs", i, "amount");
            const Amount amount = positive(input.amount, named.good.good.measure, pointer);
            for (const auto& part : choose(transaction, named, {amount, {}, day}, pointer)) {
                value = add_checked(value, posting.take(part.lot, part.steps));
                posting.sweep(part.lot, {part.swept, amount.measure});
            }
        });
    return value;
}

/// The part of the value that lost pieces would have carried, had they been good.
Money value_of_lost(Money value, std::int64_t lost, const std::vector<Output>& outputs) {
    std::int64_t good_pieces = 0;
    for (const auto& output : outputs)
        if (output.amount.measure == Measure::pieces)
            good_pieces = add_checked(good_pieces, output.amount.steps);
    if (lost > 0 && good_pieces == 0)
        throw Error(ErrorKind::params, "out_of_range",
                    "There are lost pieces, but no output is counted in pieces.",
                    "Leave --lost out.", "/lost");
    return lost == 0 ? Money{} : share_of(value, lost, add_checked(good_pieces, lost));
}

/// Whether the calling plugin has a record, which the entry is about, of how the jars were made.
bool has_record(const Call& call, const contract::Links& about) {
    return !call.caller.plugin.empty() &&
           std::any_of(about.begin(), about.end(), [&](const contract::Link& link) {
               return link.to.starts_with(call.caller.plugin + ".");
           });
}

/// Fills a lot again that an undone entry had emptied, so that the codes on lids stay true.  Its
/// holds stay in force.  The lot is now of this entry, so it is filled once more only if this entry
/// is undone, too.
std::int64_t refill(Transaction& transaction, const Output& output, const LotCode& code,
                    std::int64_t entry, const std::string& pointer) {
    const LotRow known = require_lot(transaction, code, pointer);
    const auto is_undone =
        transaction.number("SELECT count(*) FROM entry WHERE undoes = ?", known.lot.origin) != 0;
    if (known.good_number != output.good.number || known.steps_on_hand() != 0 || !is_undone)
        throw Error(ErrorKind::conflict, "not_refilled",
                    fmt::format("Lot {} cannot be filled again: it is not an empty lot of {} whose "
                                "entry was undone.",
                                to_text(code), output.good.good.name),
                    "Leave the lot out to get a new one.", pointer);
    update_with_checksum(transaction, ChecksummedTable::lot, known.number(),
                         "UPDATE lot SET canned = ?, best_by = ?, kept = ?, facts = ?, origin = ? "
                         "WHERE number = ?",
                         output.given.canned, output.given.best_by, output.given.kept,
                         write_json(to_json(output.given.facts)), entry);
    return known.number();
}

/// The lot that an output goes into, with its holds.
std::int64_t lot_for(Transaction& transaction, const Call& call, const Output& output,
                     const StockConvert::Params& params, std::int64_t entry, std::size_t at) {
    const std::int64_t lot =
        output.given.lot
            ? refill(transaction, output, *output.given.lot, entry, place("outputs", at, "lot"))
            : make_lot(transaction, output.good,
                       {{{}, {}, output.given.canned, output.given.best_by},
                        {},
                        to_json(output.given.facts).as_object(),
                        output.given.kept,
                        params.about},
                       entry);
    for (const contract::HoldGiven& hold : output.given.holds)
        set_hold(transaction, call, lot, hold, params.about);
    if (output.good.good.category == contract::Category::concentrate &&
        !has_record(call, params.about))
        set_hold(transaction, call, lot,
                 {contract::HoldKind::process_unknown, "made without a logged run"}, {});
    return lot;
}

/// What is made from stock that was released with a reason carries that reason on.
void inherit_releases(Transaction& transaction, const Call& call,
                      const std::vector<contract::Line>& lines,
                      const std::vector<std::int64_t>& lots) {
    std::vector<std::int64_t> taken;
    for (const contract::Line& line : lines)
        if (line.quantity.steps < 0)
            taken.push_back(line.lot.number());
    for (const auto& [from, holds] : releases_of(transaction, taken))
        for (const auto lot : lots)
            copy_holds(transaction, call, lot, holds);
}

} // namespace

std::vector<Money> shares(Money value, const std::vector<double>& weights) {
    long double whole = 0;
    for (const double weight : weights)
        whole += weight;
    if (!(whole > 0) || !std::isfinite(whole))
        throw Error(ErrorKind::params, "out_of_range", "The weights of the outputs add up to 0.",
                    "Give at least one output a weight above 0.", "/outputs");
    // Each share is the difference of two rounded running sums, so nothing is left over.
    std::vector<Money> all;
    long double running = 0;
    Money given;
    for (const double weight : weights) {
        running += weight;
        const bool is_last = all.size() + 1 == weights.size();
        const Money until = is_last
                                ? value
                                : Money{std::llround(static_cast<long double>(value.millionths) *
                                                     (running / whole))};
        all.push_back(until - given);
        given = until;
    }
    return all;
}

StockConvert::Result convert(Transaction& transaction, const Call& call,
                             const StockConvert::Params& params) {
    ErrorCollector faults;
    const Date day = faults.gather([&] { return day_or_today(transaction, params.day, "/day"); })
                         .value_or(transaction.today());
    const auto outputs = read_outputs(transaction, params, day, faults);
    faults.gather([&] { check_own_links(transaction, call, params.about, "/about"); });
    Posting posting{transaction,
                    call,
                    {contract::EntryKind::converted, day, params.note, {}, {}, params.about}};
    const Money value = take_inputs(transaction, posting, params, day, faults);
    std::vector<Money> parts;
    Money lost_value;
    if (outputs.size() == params.outputs.size()) { // what is shared among all needs all
        faults.gather([&] { parts = shares(value, weights_of(outputs)); });
        faults.gather([&] { lost_value = value_of_lost(value, params.lost, outputs); });
    }
    faults.throw_any(); // the writer undoes what was taken

    const auto taken = lines_of(transaction, posting.sequence());
    std::vector<std::int64_t> lots;
    for (std::size_t i = 0; i < outputs.size(); ++i) {
        lots.push_back(lot_for(transaction, call, outputs[i], params, posting.sequence(), i));
        posting.change(lots.back(), outputs[i].amount.steps, parts[i]);
    }
    inherit_releases(transaction, call, taken, lots);
    if (params.lost > 0)
        posting.lose(params.lost, lost_value);
    auto posted = posting.finish();
    StockConvert::Result result{
        posted.entry, std::move(posted.lines), std::move(posted.swept), {}, value, lost_value};
    for (const auto lot : lots)
        result.lots.push_back(lot_numbered(transaction, lot).lot);
    return result;
}

} // namespace barmkeep::ledger
