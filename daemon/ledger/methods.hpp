// How the ledger's operations become methods: one line each.
//
// An operation is a free function that reads or writes:
//
//     contract::Lot show(const View&, const Call&, const contract::LotShow::Params&);
//     contract::Lot hold(Transaction&, const Call&, const contract::LotHold::Params&);
//
// Its params are read on the caller's thread, so that a faulty request never reaches the writer.
#pragma once

#include "daemon/ledger/readers.hpp"
#include "daemon/ledger/writer.hpp"
#include "sdk/sheet/maker.hpp"

#include <map>

namespace barmkeep::ledger {

/// Reads the params, which may throw Error(params), and answers the work.
using PrepareWrite = std::function<Writer::WriteWork(const json::object& params)>;

/// A writing method as a step of several in one transaction.
struct Step {
    Access access = Access::keep;
    json::object params; ///< their schema
    PrepareWrite prepare;
};
using Steps = std::map<std::string, Step, std::less<>>;

class Methods {
public:
    template <Method M>
    using Reading = typename M::Result (*)(const View&, const Call&, const typename M::Params&);
    template <Method M>
    using Writing = typename M::Result (*)(Transaction&, const Call&, const typename M::Params&);
    using ReadWork = std::function<json::value(const View&, const Call&)>;

    Methods(MethodTable& table, std::shared_ptr<Writer> writer, std::shared_ptr<Readers> readers,
            std::shared_ptr<spdlog::logger> log);

    template <Method M>
    void reads(Reading<M> handler) {
        add_read(describe<M>(), prepared_read<M>(handler), false);
    }
    /// For what may take seconds.
    template <Method M>
    void reads_long(Reading<M> handler) {
        add_read(describe<M>(), prepared_read<M>(handler), true);
    }
    template <Method M>
    void writes(Writing<M> handler) {
        const PrepareWrite prepare = [handler](const json::object& params) -> Writer::WriteWork {
            auto read =
                std::make_shared<const typename M::Params>(read_as<typename M::Params>(params));
            return [read, handler](Transaction& transaction, const Call& call) {
                return to_json<typename M::Result>(handler(transaction, call, *read));
            };
        };
        const Description description = describe<M>();
        steps_->emplace(M::about.name, Step{M::about.access, description.params, prepare});
        add_write(description, prepare);
    }

    /// Gives a method the function that makes its sheet.  REQUIRES: the method is not added yet.
    template <Method M>
    void sheet(sheet::SheetOf<M> function) {
        sheets_.emplace(M::about.name, sheet::maker<M>(function));
    }

    /// For the few that answer in a way of their own.
    void add(Description description, Start start);
    void add_write(const Description& description, PrepareWrite prepare);

    [[nodiscard]] const std::shared_ptr<Readers>& readers() const noexcept { return readers_; }
    /// Every method added by `writes`, now or later.
    [[nodiscard]] std::shared_ptr<const Steps> steps() const noexcept { return steps_; }

private:
    using PrepareRead = std::function<ReadWork(const json::object&)>;

    template <Method M>
    static PrepareRead prepared_read(Reading<M> handler) {
        return [handler](const json::object& params) -> ReadWork {
            auto read =
                std::make_shared<const typename M::Params>(read_as<typename M::Params>(params));
            return [read, handler](const View& view, const Call& call) {
                return to_json<typename M::Result>(handler(view, call, *read));
            };
        };
    }
    void add_read(Description description, PrepareRead prepare, bool is_long);

    MethodTable& table_;
    std::shared_ptr<Writer> writer_;
    std::shared_ptr<Readers> readers_;
    std::shared_ptr<spdlog::logger> log_;
    std::shared_ptr<Steps> steps_ = std::make_shared<Steps>();
    std::map<std::string, MakeSheet, std::less<>> sheets_;
};

/// The sheets of the ledger's methods (sheets/); before the methods themselves.
void add_sheets(Methods& methods);

// Each noun adds its own methods.
void add_goods(Methods& methods);
void add_lots(Methods& methods);
void add_stock(Methods& methods);
void add_entries(Methods& methods);
void add_brews(Methods& methods);
void add_reminders(Methods& methods);
void add_records(Methods& methods);
void add_prices(Methods& methods);
void add_equipment(Methods& methods);
void add_cellar(Methods& methods);
void add_keys(Methods& methods);
void add_copies(Methods& methods);
void add_batch(Methods& methods);
void add_event_post(Methods& methods);

} // namespace barmkeep::ledger
