// Kill -9 in the middle of 10,000 keyed writes by 16 clients; restart; the clients repeat by key.
// Afterwards every acknowledged write is there, exactly once.
#include "sdk/client/client.hpp"
#include "sdk/contract/entry.hpp"
#include "sdk/contract/ledger.hpp"
#include "tests/system/daemon_under_test.hpp"

#include <gtest/gtest.h>

#include <atomic>
#include <condition_variable>
#include <map>
#include <mutex>
#include <thread>

namespace barmkeep::test {
namespace {

constexpr int clients = 16;
constexpr int writes_each = 625;
constexpr int writes = clients * writes_each; // 10,000

client::ClientOptions options(const DaemonUnderTest& daemon) {
    client::ClientOptions all;
    all.socket = daemon.socket().string();
    all.time_out = std::chrono::minutes{5};
    all.attempts_max = 1000;
    all.pause_first = std::chrono::milliseconds{2};
    all.pause_max = std::chrono::milliseconds{20};
    return all;
}

/// Counts acknowledged writes and lets the killer wait for a count.
class Acknowledged {
public:
    void add(const std::string& note, std::int64_t entry) {
        const std::lock_guard lock{mutex_};
        entries_.emplace(note, entry);
        changed_.notify_all();
    }
    void wait_for(std::size_t count) {
        std::unique_lock lock{mutex_};
        changed_.wait(lock, [&] { return entries_.size() >= count; });
    }
    [[nodiscard]] std::map<std::string, std::int64_t> take() {
        const std::lock_guard lock{mutex_};
        return std::move(entries_);
    }

private:
    std::mutex mutex_;
    std::condition_variable changed_;
    std::map<std::string, std::int64_t> entries_;
};

void write_all(const DaemonUnderTest& daemon, int number, const std::string& lot,
               Acknowledged& acknowledged) {
    client::Client client{options(daemon)};
    for (int i = 0; i < writes_each; ++i) {
        const std::string note = "client " + std::to_string(number) + " write " + std::to_string(i);
        contract::StockUse::Params use;
        use.what = lot;
        use.amount.given = 1;
        use.note = note;
        client::CallOptions once;
        once.key = note;
        const auto posted = client.call<contract::StockUse>(use, once);
        acknowledged.add(note, posted.entry);
    }
}

/// All entries about a lot by their note; a note that comes twice fails the test.
std::map<std::string, std::int64_t> entries_of(client::Client& client, const LotCode& lot) {
    std::map<std::string, std::int64_t> all;
    contract::EntryList::Params page;
    page.lot = lot;
    page.limit = contract::page_size_max;
    do {
        const auto answer = client.call<contract::EntryList>(page);
        for (const auto& entry : answer.entries) {
            if (entry.kind != contract::EntryKind::used)
                continue;
            EXPECT_TRUE(all.emplace(entry.note.value_or(""), entry.number).second)
                << entry.note.value_or("") << " was done twice";
        }
        page.cursor = answer.next;
    } while (page.cursor);
    return all;
}

TEST(Crash, EveryAcknowledgedWriteIsThereExactlyOnce) {
    const ScratchFolder folder;
    DaemonUnderTest daemon{folder.path()};
    daemon.start();
    client::Client client{options(daemon)};
    contract::GoodAdd::Params lids;
    lids.name = "lids";
    lids.category = contract::Category::lids;
    (void)client.call<contract::GoodAdd>(lids);
    contract::StockBuy::Params buy;
    buy.good = "lids";
    buy.amount.given = 2 * writes;
    buy.paid = parse_money("1234.567891");
    const LotCode lot = client.call<contract::StockBuy>(buy).lot.code;

    Acknowledged acknowledged;
    std::vector<std::jthread> threads;
    for (int number = 0; number < clients; ++number)
        threads.emplace_back(
            [&, number] { write_all(daemon, number, to_text(lot), acknowledged); });
    for (const int reached : {writes / 5, writes / 2, writes * 4 / 5}) {
        acknowledged.wait_for(static_cast<std::size_t>(reached));
        daemon.kill();
        daemon.start();
    }
    threads.clear();

    EXPECT_EQ(entries_of(client, lot), acknowledged.take());
    contract::LotShow::Params show;
    show.lot = lot;
    EXPECT_EQ(client.call<contract::LotShow>(show).on_hand, pieces(writes));
    const auto check = client.call<contract::LedgerCheck>();
    EXPECT_TRUE(check.sound) << (check.faults.empty() ? std::string{} : check.faults.front().what);
    EXPECT_EQ(daemon.stop(), 0);
}

} // namespace
} // namespace barmkeep::test
