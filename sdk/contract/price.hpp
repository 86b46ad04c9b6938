// Price notes: what something costs, and where, whether or not it was bought.
#pragma once

#include "sdk/contract/listing.hpp"
#include "sdk/method/money.hpp"
#include "sdk/method/quantity_codecs.hpp"
#include "sdk/method/time.hpp"

namespace barmkeep::contract {

/// A bought can of wort is noted with its volume and gravity, so that it can be compared by the
/// extract it holds; extract and other goods with their mass or pieces.
struct PriceNote {
    std::string item;
    Money price;
    std::optional<std::string> where;
    Date day;
    std::optional<brewing::Volume> volume;
    std::optional<brewing::Gravity> gravity;
    std::optional<brewing::Mass> mass;
    std::optional<std::int64_t> pieces;
    static FieldList fields(auto) {
        return {field<&PriceNote::item>("What is sold."),
                field<&PriceNote::price>("The price of one package."),
                field<&PriceNote::where>("The shop."),
                field<&PriceNote::day>("The day on which the price was seen."),
                field<&PriceNote::volume>("Volume of liquid in the package."),
                field<&PriceNote::gravity>("Gravity of that liquid, undiluted."),
                field<&PriceNote::mass>("Mass in the package."),
                field<&PriceNote::pieces>("Pieces in the package.")};
    }
};

struct PriceSet {
    static constexpr About about{"price.set", Access::keep, Effect::writes,
                                 "Notes a price. It replaces the last one for that item and shop."};
    struct Params {
        std::string item;
        Money price;
        std::optional<std::string> where;
        std::optional<Date> day;
        std::optional<brewing::Volume> volume;
        std::optional<brewing::Gravity> gravity;
        std::optional<brewing::Mass> mass;
        std::optional<std::int64_t> pieces;
        static FieldList fields(auto) {
            return {
                field<&Params::item>("What is sold. For a good of the cellar, its name.")
                    .positional()
                    .length(1, 60),
                field<&Params::price>("The price of one package.").positional().at_least(0),
                field<&Params::where>("The shop. Not recorded if left out.").length(1, 80),
                field<&Params::day>("The day on which you saw it. Today if left out."),
                field<&Params::volume>("Volume of liquid in the package. Not recorded if left out.")
                    .above(0)
                    .at_most(1000)
                    .like("500 mL"),
                field<&Params::gravity>(
                    "Gravity of that liquid, undiluted. Not recorded if left out.")
                    .between(1.0, 1.5)
                    .like("1.080"),
                field<&Params::mass>("Mass in the package. Not recorded if left out.")
                    .above(0)
                    .at_most(1e6),
                field<&Params::pieces>("Pieces in the package. Not recorded if left out.")
                    .between(1, 100000)};
        }
    };
    using Result = PriceNote;
};

struct PriceList {
    static constexpr About about{"price.list", Access::look, Effect::reads,
                                 "Lists the prices noted."};
    struct Params : Page {
        std::optional<std::string> item;
        static FieldList fields(auto) {
            return joined(
                FieldList{field<&Params::item>("Lists only this item.").positional().length(1, 60)},
                Page::fields(0));
        }
    };
    struct Result : NextPage {
        std::vector<PriceNote> prices;
        static FieldList fields(auto) {
            return joined(FieldList{field<&Result::prices>("The prices, by item, newest first.")},
                          NextPage::fields(0));
        }
    };
};

} // namespace barmkeep::contract
