#include "daemon/ledger/conversion.hpp"

#include "daemon/ledger/posting.hpp"
#include "daemon/ledger/taking.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace barmkeep::ledger {
namespace {

using contract::StockConvert;

struct Output {
    KnownGood good;
    Amount amount;
    const contract::ConvertOutput& given;
};

std::string place(std::string_view list, std::size_t at, std::string_view member) {
    return fmt::format("/{}/{}/{}", list, at, member);
}

std::vector<Output> read_outputs(const View& view, const StockConvert::Params& params, Date day) {
    std::vector<Output> outputs;
    for (std::size_t i = 0; i < params.outputs.size(); ++i) {
        const auto& given = params.outputs[i];
        KnownGood good = require_good(view, given.good, place("outputs", i, "good"));
        const Amount amount =
            positive(given.amount, good.good.measure, place("outputs", i, "amount"));
        if (given.canned)
            (void)day_or_today(view, given.canned, place("outputs", i, "canned"));
        const std::optional<Date> made = given.canned ? given.canned : std::optional{day};
        check_dates({std::nullopt, std::nullopt, made, given.best_by},
                    place("outputs", i, "best_by"));
        outputs.push_back({std::move(good), amount, given});
    }
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
                    "Give a weight to each output, or to none.", "/outputs");
    if (given == 0 && !one_measure)
        throw Error(ErrorKind::params, "weight_missing",
                    "Outputs measured in different ways cannot share a value by amount.",
                    "Give a weight to each output.", "/outputs");
    return weights;
}

Money take_inputs(Transaction& transaction, Posting& posting, const StockConvert::Params& params) {
    Money value;
    for (std::size_t i = 0; i < params.inputs.size(); ++i) {
        const auto& input = params.inputs[i];
        const Named named = require_named(transaction, input.what, place("inputs", i, "what"));
        const std::string pointer = place("inputs", i, "amount");
        const Amount amount = positive(input.amount, named.good.good.measure, pointer);
        for (const auto& part : choose(transaction, named, amount, std::nullopt, pointer))
            value = add_checked(value, posting.take(part.lot, part.steps));
    }
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
                    "Lost pieces are said, but nothing that comes out is counted in pieces.",
                    "Leave 'lost' out.", "/lost");
    return lost == 0 ? Money{} : share_of(value, lost, add_checked(good_pieces, lost));
}

NewLot lot_of(const Output& output) {
    return {{std::nullopt, std::nullopt, output.given.canned, output.given.best_by},
            std::nullopt,
            output.given.facts,
            output.given.hold};
}

} // namespace

std::vector<Money> shares(Money value, const std::vector<double>& weights) {
    long double whole = 0;
    for (const double weight : weights)
        whole += weight;
    if (!(whole > 0) || !std::isfinite(whole))
        throw Error(ErrorKind::params, "out_of_range", "The weights come to nothing.",
                    "Give at least one output a weight above zero.", "/outputs");
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
    const Date day = day_or_today(transaction, params.day, "/day");
    const auto outputs = read_outputs(transaction, params, day);
    const auto weights = weights_of(outputs);

    Posting posting{transaction, call, {contract::EntryKind::converted, day, params.memo, {}, {}}};
    const Money value = take_inputs(transaction, posting, params);
    const auto parts = shares(value, weights);
    std::vector<std::int64_t> lots;
    for (std::size_t i = 0; i < outputs.size(); ++i) {
        lots.push_back(
            make_lot(transaction, outputs[i].good, lot_of(outputs[i]), posting.sequence()));
        posting.change(lots.back(), outputs[i].amount.steps, parts[i]);
    }
    const Money lost_value = value_of_lost(value, params.lost, outputs);
    if (params.lost > 0)
        posting.lose(params.lost, lost_value);
    auto posted = posting.finish();
    StockConvert::Result result{posted.entry, std::move(posted.lines), {}, value, lost_value};
    for (const auto lot : lots)
        result.lots.push_back(lot_numbered(transaction, lot).lot);
    return result;
}

} // namespace barmkeep::ledger
