// The cautions that every answer of this plugin carries; their texts are in
// sdk/contract/safety.hpp.
#pragma once

#include "sdk/contract/safety.hpp"
#include "sdk/method/about.hpp"

namespace barmkeep::canning {

using contract::all_cautions;
using contract::Caution;
using contract::cautions;
using contract::Moment;

/// A published source.
struct SourceShown {
    std::string key;
    std::string title;
    static FieldList fields(auto) {
        return {field<&SourceShown::key>("Key of the source, as it stands in brackets."),
                field<&SourceShown::title>("Title of the source.")};
    }
};

/// canning.cautions
struct CanningCautions {
    static constexpr About about{"canning.cautions", Access::look, Effect::reads,
                                 "Lists the cautions for canning wort, and the titles of all "
                                 "sources."};
    struct Params {
        std::optional<Moment> moment;
        static FieldList fields(auto) {
            return {field<&Params::moment>(
                        "Only the cautions of this moment. All cautions if left out.")
                        .positional()};
        }
    };
    struct Result {
        std::vector<Caution> cautions;
        std::vector<SourceShown> sources;
        static FieldList fields(auto) {
            return {field<&Result::cautions>("The cautions, the most important first."),
                    field<&Result::sources>("The keys and titles of all sources.")};
        }
    };
};

} // namespace barmkeep::canning
