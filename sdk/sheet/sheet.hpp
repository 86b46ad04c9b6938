// A sheet: what a person reads of a method's answer.
//
// A method's result is complete and made for programs.  Its sheet is a small document made from
// it: the answer first, then what to do, then what to watch for.  Whoever makes the method makes
// the sheet, as a pure function of parameters and result; text_writer.hpp and html_writer.hpp print
// it for this reader.  builder.hpp makes one in a dozen lines; docs/sheets.md says what a good one
// is.
//
// A sheet is a described struct: to_json(sheet) writes it, decode<Sheet>(value) reads it, even one
// that a newer program wrote.  What comes from a plugin goes through limits.hpp.
//
// Thread safety: a value; no shared state.
#pragma once

#include "sdk/method/structure.hpp"
#include "sdk/sheet/block.hpp"

namespace barmkeep::sheet {

struct Sheet {
    Text title{}; ///< a few words: "Starter for Dunkel"
    Text lead{};  ///< one sentence: the answer itself
    std::vector<Block> blocks{};
    std::vector<Action> actions{};     ///< what one may do next
    std::vector<std::string> topics{}; ///< events after which the sheet is out of date: "lot."
    bool operator==(const Sheet&) const = default;
    static FieldList fields(auto) {
        return {
            field<&Sheet::title>("What the sheet is about."),
            field<&Sheet::lead>("The answer, in one sentence.").defaulted(),
            field<&Sheet::blocks>("Blocks, in the order in which a person needs them.").defaulted(),
            field<&Sheet::actions>("What one may do next.").defaulted(),
            field<&Sheet::topics>("Beginnings of the events that make the sheet out of date.")
                .defaulted()};
    }
};

} // namespace barmkeep::sheet
