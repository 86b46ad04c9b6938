// The sources of a figure, as results carry them: keys, words, or both.
//
//     source_words("GR06 FIX")                 [GR06] [FIX]
//     source_words("the extract's potential")  (the extract's potential)
//     cited("Counted twice (GR06 GR15).")      Counted twice [GR06] [GR15].
//
// Thread safety: pure functions.
#pragma once

#include "sdk/sheet/text.hpp"

namespace barmkeep::sheet {

/// Whether a word is the key of a published source: capital letters, digits and a hyphen, as S22,
/// FIX or PR06-lager.  Small letters stand only after a hyphen.
[[nodiscard]] bool is_source_key(std::string_view word);

/// Keys as sources, and whatever is no key as plain words in parentheses.
[[nodiscard]] Text source_words(std::string_view given);

/// A sentence in which brackets or parentheses that hold nothing but keys become sources.
[[nodiscard]] Text cited(std::string_view sentence);

} // namespace barmkeep::sheet
