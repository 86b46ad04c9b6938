#include "sdk/plugin/batch.hpp"

namespace barmkeep::plugin {

void Batch::refer(std::size_t step, std::string_view field, std::size_t earlier,
                  std::string_view at) {
    // The pointer is our own, so that it fits: what it names is there already.
    json::value params(std::move(steps_.steps.at(step).params));
    params.at_pointer(json::string_view(field.data(), field.size())) =
        json::object{{"result", earlier}, {"at", at}};
    steps_.steps.at(step).params = std::move(params.get_object());
}

Error Batch::not_understood(std::string_view method, std::size_t place, std::string_view cause) {
    return {ErrorKind::internal, "result_not_understood",
            "ledger.batch has no result of " + std::string(method) + " as step " +
                std::to_string(place) + ": " + std::string(cause),
            "The plugin and Barmkeep are of different versions. Update both."};
}

} // namespace barmkeep::plugin
