#include "sdk/sheet/source_words.hpp"

#include <algorithm>

namespace barmkeep::sheet {
namespace {

bool is_capital(char letter) {
    return letter >= 'A' && letter <= 'Z';
}
bool is_digit(char letter) {
    return letter >= '0' && letter <= '9';
}
bool is_small(char letter) {
    return letter >= 'a' && letter <= 'z';
}

/// The words between blanks.
std::vector<std::string_view> words_in(std::string_view text) {
    std::vector<std::string_view> words;
    while (!text.empty()) {
        const std::size_t end = std::min(text.find(' '), text.size());
        if (end > 0)
            words.push_back(text.substr(0, end));
        text.remove_prefix(std::min(end + 1, text.size()));
    }
    return words;
}

/// A list may have commas between its keys.
std::string_view without_comma(std::string_view word) {
    if (word.ends_with(',') || word.ends_with(';'))
        word.remove_suffix(1);
    return word;
}

/// The keys, if there is nothing else.
std::vector<Source> only_keys(std::string_view text) {
    std::vector<Source> keys;
    for (const std::string_view word : words_in(text)) {
        if (!is_source_key(without_comma(word)))
            return {};
        keys.push_back(source(without_comma(word)));
    }
    return keys;
}

} // namespace

bool is_source_key(std::string_view word) {
    if (word.size() < 2 || !is_capital(word.front()) || word.ends_with('-'))
        return false;
    const std::string_view head = word.substr(0, word.find('-'));
    const std::string_view tail = word.substr(head.size());
    return std::all_of(head.begin(), head.end(),
                       [](char letter) { return is_capital(letter) || is_digit(letter); }) &&
           std::all_of(tail.begin(), tail.end(), [](char letter) {
               return is_capital(letter) || is_digit(letter) || is_small(letter) || letter == '-';
           });
}

Text source_words(std::string_view given) {
    Text whole;
    std::string plain;
    const auto end_plain = [&] {
        if (!plain.empty())
            whole.append(whole.empty() ? "" : " ").append("(" + plain + ")");
        plain.clear();
    };
    for (const std::string_view word : words_in(given)) {
        if (!is_source_key(without_comma(word))) {
            plain += (plain.empty() ? "" : " ") + std::string(word);
            continue;
        }
        end_plain();
        whole.append(whole.empty() ? "" : " ").append(source(without_comma(word)));
    }
    end_plain();
    return whole;
}

Text cited(std::string_view sentence) {
    Text whole;
    std::string plain;
    while (!sentence.empty()) {
        const std::size_t open = sentence.find_first_of("[(");
        const std::size_t close =
            open == std::string_view::npos ? open : sentence.find_first_of("])", open);
        if (close == std::string_view::npos)
            break;
        const auto keys = only_keys(sentence.substr(open + 1, close - open - 1));
        plain += sentence.substr(0, keys.empty() ? close + 1 : open);
        sentence.remove_prefix(close + 1);
        if (keys.empty())
            continue;
        if (!plain.empty())
            whole.append(std::move(plain));
        plain.clear();
        whole.append(keys);
    }
    plain += sentence;
    if (!plain.empty())
        whole.append(std::move(plain));
    return whole;
}

} // namespace barmkeep::sheet
