#include "plugins/starter/cautions.hpp"

#include "sdk/contract/safety.hpp"

namespace barmkeep::starter {

std::vector<std::string> cautions() {
    std::vector<std::string> texts;
    for (auto& caution : contract::cautions(contract::Moment::opening))
        texts.push_back(std::move(caution.text));
    return texts;
}

} // namespace barmkeep::starter
