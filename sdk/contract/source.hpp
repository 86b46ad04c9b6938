// Sources: what stands behind the keys in brackets of figures, reasons, warnings and cautions.
//
// The keys are those of sdk/brewing/sources.hpp (the science) and of safety_sources.hpp (canning).
#pragma once

#include "sdk/method/about.hpp"

namespace barmkeep::contract {

/// A publication, or one figure of it.
struct Source {
    std::string key;
    std::string what;
    std::string used_for;
    std::optional<std::string> from;
    static FieldList fields(auto) {
        return {field<&Source::key>("The key."),
                field<&Source::what>("What the source is, or what the figure says."),
                field<&Source::used_for>("Figures or texts that rest on it."),
                field<&Source::from>("Keys of the publications that have this figure. Left out if "
                                     "the key is itself a publication.")};
    }
};

struct SourceShow {
    static constexpr About about{"source.show", Access::look, Effect::reads,
                                 "Shows the source behind a key."};
    struct Params {
        std::string key;
        static FieldList fields(auto) {
            return {field<&Params::key>("The key, as it stands in an answer.")
                        .positional()
                        .length(1, 40)
                        .like("GR36")};
        }
    };
    using Result = Source;
};

struct SourceList {
    static constexpr About about{"source.list", Access::look, Effect::reads,
                                 "Lists the sources of all figures and safety texts."};
    using Params = Nothing;
    struct Result {
        std::vector<Source> sources;
        static FieldList fields(auto) { return {field<&Result::sources>("The sources, by key.")}; }
    };
};

} // namespace barmkeep::contract
