// What all connections share.
#pragma once

#include "daemon/protocol/discover.hpp"
#include "daemon/protocol/limits.hpp"
#include "sdk/method/call.hpp"

#include <functional>

namespace barmkeep::protocol {

struct Service {
    const MethodTable& methods; ///< must outlive every session
    Limits limits;
    Program program;
    /// Runs the start of a handler, now or later, on a worker.  Empty: on the spot, on the thread
    /// that read the request.  Must not throw, and must run or destroy what it is given.
    std::function<void(std::function<void()>)> run;
    /// Called for every request that ends with a fault of the program, once: the method, who asked,
    /// the reason; never the params.  May be empty; any thread.
    std::function<void(const std::string&)> fault;
    std::shared_ptr<DiscoverCache> discover = std::make_shared<DiscoverCache>();
};

/// The side of a connection that call.cancel needs.
///
/// There is one for a connection, the same in every Call of it: a handler may keep it and compare
/// it, to know two calls of one connection.
class Connected : public Listener {
public:
    /// Asks the request of this id to stop; false if none is in flight.
    virtual bool cancel(const json::value& id) = 0;
};

/// Adds the methods that the protocol itself serves: call.cancel.
void add_protocol_methods(MethodTable& methods);

/// Starts a call: rpc.discover here, every other in the table.  Every failure arrives as an
/// outcome, whatever the handler throws.
void start_call(const Service& service, std::string_view method, Call call,
                const json::value* params, const Done& done);

} // namespace barmkeep::protocol
