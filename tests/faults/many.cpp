// Many: ten processes post to one ledger and read it, each with a Ledger of its own for every call, as ten people with
// the command line do. Nobody gives up, everybody gets on, and every answer is of whole batches.
//
// many [SECONDS [FOLDER]]: 4 unless stated, in memory unless stated.
#include <sqlite3.h>
#include <sys/mman.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <filesystem>
#include <iostream>
#include <optional>

#include "coldtally/ledger.hpp"
#include "faults/clinic.hpp"
#include "faults/folder.hpp"

namespace {

using namespace coldtally;
using Clock = std::chrono::steady_clock;

constexpr int processes = 10;
constexpr EntryNumber in_batch = 3, in_definitions = 4;
// what a queue without favour takes on a slow disk is some hundred milliseconds
constexpr std::int64_t longest_fair_wait_ms = 3000;
constexpr int long_run_s = 30;
constexpr long fair_part = 4;  // each gets at least this part of what the luckiest gets

struct Done {
    long posts, answers, longest_ms;
    char error[500];
};

std::int64_t since_ms(Clock::time_point begin) {
    return std::chrono::duration_cast<std::chrono::milliseconds>(Clock::now() - begin).count();
}

std::string checks(int process, long serial) {
    std::string out;
    for (EntryNumber i = 0; i < in_batch; ++i) {
        const Instant at = parse_instant("2026-03-02T00:00:00Z", Zone("UTC")) +
                           Duration((serial * processes + process) * in_batch + i);
        out += R"({"kind":"check","at":")" + at.text() +
               R"(","place":"main","scale":"C","temperature":"4","by":"QA"})" + "\n";
    }
    return out;
}

void work(const std::string& path, int process, int seconds, Done& done) {
    const Instant now = parse_instant("2026-12-31T00:00:00Z", Zone("UTC"));
    try {
        const auto begin = Clock::now();
        while (since_ms(begin) < seconds * 1000) {
            const auto before = Clock::now();
            Ledger(path, Ledger::Mode::write).post(checks(process, done.posts), now);
            ++done.posts;
            done.longest_ms = std::max<long>(done.longest_ms, since_ms(before));
            const EntryNumber last = Ledger(path).stock({}, now).head.last_entry;
            ++done.answers;
            if ((last - in_definitions) % in_batch != 0)
                throw std::runtime_error("half a batch was seen: " + std::to_string(last) + " entries");
        }
    } catch (const std::exception& e) {
        std::snprintf(done.error, sizeof done.error, "%s", e.what());
    }
}

/// What a post says while another program holds the ledger in `kind` of transaction, and how long it waited.
struct Refused {
    std::optional<Code> code;
    std::string message;
    std::int64_t ms = 0;
};
Refused post_against(const std::string& path, const char* begin, bool ask) {
    sqlite3* db = nullptr;
    if (sqlite3_open(path.c_str(), &db) != SQLITE_OK || sqlite3_exec(db, begin, nullptr, nullptr, nullptr) != SQLITE_OK)
        throw std::runtime_error(std::string(begin) + ": " + sqlite3_errmsg(db));
    Refused out;
    const auto before = Clock::now();
    try {
        if (ask)
            Ledger(path, Ledger::Mode::read, Duration(1)).stock({}, faults::asked_at());
        else
            Ledger(path, Ledger::Mode::write, Duration(1))
                .post(checks(0, 9'000), parse_instant("2026-12-31T00:00:00Z", Zone("UTC")));
    } catch (const Error& e) {
        out.code = e.code();
        out.message = e.what();
    }
    out.ms = since_ms(before);
    sqlite3_close(db);
    return out;
}

int fail(const std::string& what) {
    std::cout << what << "\n";
    return 1;
}

}  // namespace

int main(int count, char** words) {
    const int seconds = count > 1 ? std::atoi(words[1]) : 4;
    const faults::Folder folder;
    const std::string path =
        (count > 2 ? std::filesystem::path(words[2]) / "many.ledger" : folder.path() / "ledger").string();
    std::filesystem::remove(path);
    Ledger(path, Ledger::Mode::create).post(faults::definitions(), parse_instant("2026-03-01T00:00:00Z", Zone("UTC")));

    // a bound on waiting: within a second and a little more, and who is waited for is not said to write where it reads
    for (const char* begin : {"BEGIN IMMEDIATE", "BEGIN EXCLUSIVE", "BEGIN; SELECT count(*) FROM entry"}) {
        const Refused r = post_against(path, begin, false);
        if (r.code != Code::busy || !is_machine_failure(*r.code))
            return fail(std::string(begin) + ": a post is not told to be busy: " + r.message);
        if (r.ms < 900 || r.ms > 4000)
            return fail(std::string(begin) + ": waited " + std::to_string(r.ms) + " ms for a second");
        if (std::strstr(begin, "SELECT") && r.message.find("is writing") != std::string::npos)
            return fail("a reader is said to write: " + r.message);
    }
    if (const Refused r = post_against(path, "BEGIN IMMEDIATE", true); r.code)
        return fail("a question waits for a writer that has changed nothing: " + r.message);
    if (const Refused r = post_against(path, "BEGIN EXCLUSIVE", true); r.code != Code::busy || r.ms > 4000)
        return fail("a question against a writer: " + r.message + ", after " + std::to_string(r.ms) + " ms");

    auto* done = static_cast<Done*>(
        mmap(nullptr, sizeof(Done) * processes, PROT_READ | PROT_WRITE, MAP_SHARED | MAP_ANONYMOUS, -1, 0));
    if (done == MAP_FAILED) return fail("no memory");
    for (int i = 0; i < processes; ++i)
        if (fork() == 0) {
            work(path, i, seconds, done[i]);
            _exit(0);
        }
    bool whole = true;
    for (int status = 0; wait(&status) > 0;) whole = whole && WIFEXITED(status) && WEXITSTATUS(status) == 0;
    if (!whole) return fail("a process did not come through");

    long posts = 0, answers = 0, fewest = done[0].posts, most = 0, longest = 0;
    for (int i = 0; i < processes; ++i) {
        if (done[i].error[0])
            std::cout << "process " << i << ", after " << done[i].posts << " posts: " << done[i].error << "\n";
        whole = whole && !done[i].error[0];
        posts += done[i].posts;
        answers += done[i].answers;
        fewest = std::min(fewest, done[i].posts);
        most = std::max(most, done[i].posts);
        longest = std::max(longest, done[i].longest_ms);
    }
    const auto found = Ledger(path).verify();
    std::cout << "many: " << processes << " processes, " << seconds << " s: " << posts << " posts (" << fewest << " to "
              << most << " each), the longest took " << longest << " ms; " << answers << " answers; " << found.entries
              << " entries\n";
    if (!whole) return 1;
    if (!found.findings.empty()) return fail("verify: " + english().say(found.findings.front()));
    if (found.entries != in_definitions + posts * in_batch) return fail("not all that was acknowledged is there");
    if (fewest < 1) return fail("one came to nothing");
    if (seconds < long_run_s) return 0;  // how long each waits is measured where nothing else runs
    if (longest > longest_fair_wait_ms)
        return fail("one waited " + std::to_string(longest) + " ms while others went before it");
    if (fewest * fair_part < most) return fail("one got less than a quarter of what another got");
    return 0;
}
