#include "daemon/protocol/service.hpp"

#include "sdk/contract/service.hpp"

namespace barmkeep::protocol {
namespace {

json::value discover(const Service& service, const json::value* params) {
    const bool given = params != nullptr &&
                       !(params->is_object() && params->get_object().empty()) &&
                       !(params->is_array() && params->get_array().empty());
    if (given)
        throw Error(ErrorKind::params, "too_many", "rpc.discover takes no parameters.",
                    "Leave params out.");
    return *service.discover->document(service.methods, service.program, service.limits);
}

contract::CallCancel::Result cancel(const Call& call, const contract::CallCancel::Params& params) {
    auto* connected = dynamic_cast<Connected*>(call.listener.get());
    if (connected == nullptr)
        throw Error(ErrorKind::refused, "no_connection",
                    "call.cancel stops requests of its own connection; this call has none.",
                    "Send it over the connection that sent the request.");
    connected->cancel(params.id);
    return {};
}

} // namespace

void add_protocol_methods(MethodTable& methods) {
    add_direct<contract::CallCancel>(methods, "core", cancel);
}

void start_call(const Service& service, std::string_view method, Call call,
                const json::value* params, const Done& done) {
    if (method == discover_method)
        return answer(done, [&] { return discover(service, params); });
    try {
        service.methods.start(method, std::move(call), params, done);
    } catch (...) {
        done(Error(ErrorKind::internal, "internal",
                   "The method threw something that is not an exception.",
                   "This is a fault of the program; its log has the reason."));
    }
}

} // namespace barmkeep::protocol
