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
        return {field<&SourceShown::key>("Its key, as in docs/safety.md."),
                field<&SourceShown::title>("What it is.")};
    }
};

/// canning.cautions
struct CanningCautions {
    static constexpr About about{"canning.cautions", Access::look, Effect::reads,
                                 "Shows the cautions of canning wort and the titles of their "
                                 "sources."};
    struct Params {
        std::optional<Moment> moment;
        static FieldList fields(auto) {
            return {
                field<&Params::moment>("Only those of this moment; all if left out.").positional()};
        }
    };
    struct Result {
        std::vector<Caution> cautions;
        std::vector<SourceShown> sources;
        static FieldList fields(auto) {
            return {field<&Result::cautions>("The cautions, the gravest first."),
                    field<&Result::sources>("The titles of their sources.")};
        }
    };
};

} // namespace barmkeep::canning
