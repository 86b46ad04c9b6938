#include "sdk/plugin/together.hpp"

namespace barmkeep::plugin {

Error Together::not_understood(std::string_view method, std::size_t place, std::string_view cause) {
    return {ErrorKind::internal, "result_not_understood",
            "ledger.together has no result of " + std::string(method) + " as step " +
                std::to_string(place) + ": " + std::string(cause),
            "The plugin and Barmkeep are of different versions; bring both up to date."};
}

} // namespace barmkeep::plugin
