// What helps a plugin to ask the core: lists in pages, several writes batch.
#include "sdk/contract/record.hpp"
#include "sdk/contract/reminder.hpp"
#include "sdk/plugin/batch.hpp"
#include "sdk/plugin/fake_host.hpp"
#include "sdk/plugin/pages.hpp"

#include <gmock/gmock.h>

namespace barmkeep::plugin::test {
namespace {

using contract::LedgerBatch;
using contract::RecordList;
using testing::ElementsAre;
using testing::HasSubstr;

struct KeeperNames {
    static constexpr About about{"keeper.names", Access::look, Effect::reads, "Names all."};
    using Params = Nothing;
    struct Result {
        std::vector<std::string> names;
        static FieldList fields(auto) { return {field<&Result::names>("The names.")}; }
    };
};

struct KeeperMove {
    static constexpr About about{"keeper.move", Access::keep, Effect::writes, "Writes twice."};
    using Params = Nothing;
    struct Result {
        bool was_there = false;
        std::int64_t version = 0;
        static FieldList fields(auto) {
            return {field<&Result::was_there>("Whether."), field<&Result::version>("Version.")};
        }
    };
};

class Keeper final : public Plugin {
public:
    static constexpr Identity identity{"keeper", "1"};
    static void declare(Declaration<Keeper>& plugin) {
        plugin.method<KeeperNames>(&Keeper::names);
        plugin.method<KeeperMove>(&Keeper::move);
    }
    Keeper(const Host&, const Nothing&) {}

private:
    KeeperNames::Result names(const PluginCall& call, const Nothing&) {
        RecordList::Params params;
        params.collection = "runs";
        params.limit = 1; // which the helper ignores
        KeeperNames::Result result;
        for (const auto& record : all_pages<RecordList>(call, params, &RecordList::Result::records))
            result.names.push_back(record.name.value_or(""));
        return result;
    }

    KeeperMove::Result move(const PluginCall& call, const Nothing&) {
        const auto done = call.once<LedgerBatch>([] {
            Batch batch;
            EXPECT_EQ(batch.add<contract::RecordRemove>({"runs", "1", {}}), 0u);
            EXPECT_EQ(batch.add<contract::RecordPut>({"runs", "2", {}, {{"jars", 6}}, {}, {}, {}}),
                      1u);
            return std::move(batch).steps();
        });
        return {Batch::result<contract::RecordRemove>(done, 0).was_there,
                Batch::result<contract::RecordPut>(done, 1).version};
    }
};

contract::Record record_named(std::string name) {
    contract::Record record;
    record.name = std::move(name);
    return record;
}

Error error_of(const std::function<void()>& work) {
    try {
        work();
    } catch (const Error& error) {
        return error;
    }
    return {ErrorKind::internal, "none", "there is no error"};
}

TEST(Pages, AllPagesAreReadInTheirOrder) {
    FakeHost host;
    host.stand_in<RecordList>([](const Call&, const RecordList::Params& params) {
        EXPECT_EQ(params.limit, contract::page_size_max);
        EXPECT_EQ(params.collection, "runs");
        if (!params.cursor)
            return RecordList::Result{{"b"}, {record_named("a"), record_named("b")}};
        if (params.cursor == "b")
            return RecordList::Result{{"c"}, {}}; // an empty page is not the last
        return RecordList::Result{{}, {record_named("d")}};
    });
    host.start<Keeper>();
    EXPECT_THAT(host.call<KeeperNames>({}).names, ElementsAre("a", "b", "d"));
}

TEST(Pages, APageThatLeadsBackToItselfIsRefused) {
    FakeHost host;
    host.stand_in<RecordList>([](const Call&, const RecordList::Params&) {
        return RecordList::Result{{"again"}, {record_named("a")}};
    });
    host.start<Keeper>();
    EXPECT_EQ(error_of([&] { (void)host.call<KeeperNames>({}); }).reason(),
              "result_not_understood");
}

TEST(Batch, EachStepHasItsMethodItsParamsAndItsResult) {
    FakeHost host;
    host.stand_in<LedgerBatch>([](const Call&, const LedgerBatch::Params& params) {
        EXPECT_EQ(params.steps.size(), 2u);
        EXPECT_EQ(params.steps.at(0).method, "record.remove");
        EXPECT_EQ(params.steps.at(1).params.at("document").at("jars"), 6);
        const contract::RecordChanged put{2, 4, 0, {}};
        return LedgerBatch::Result{{json::object{{"was_there", true}, {"later", 1}}, to_json(put)}};
    });
    host.start<Keeper>();
    const auto result = host.call<KeeperMove>({});
    EXPECT_TRUE(result.was_there);
    EXPECT_EQ(result.version, 4);
}

TEST(Batch, AResultThatIsNotThereOrNotAsDescribedIsNotUnderstood) {
    const LedgerBatch::Result done{{json::object{{"was_there", 5}}}};
    for (const std::size_t place : {0u, 1u}) {
        const Error error =
            error_of([&] { (void)Batch::result<contract::RecordRemove>(done, place); });
        EXPECT_EQ(error.reason(), "result_not_understood");
        EXPECT_THAT(error.what(), HasSubstr("record.remove"));
    }
}

} // namespace
} // namespace barmkeep::plugin::test
