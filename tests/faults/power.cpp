// Power: after any write, the disk may have lost what was not synced, have it in part, or in another order. Whatever is
// left opens, verifies, holds all that was acknowledged and no batch in part; and takes the next post.
//
// power [FACTOR]: how many images of each moment, 1 unless stated; 0 for a few of them.
#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <memory>
#include <optional>

#include "coldtally/ledger.hpp"
#if __has_include("coldtally/copies.hpp")
#include "coldtally/copies.hpp"
#define FAULTS_COPIES 1
#endif
#include "faults/clinic.hpp"
#include "faults/disk.hpp"
#include "faults/folder.hpp"

namespace {

namespace fs = std::filesystem;
using namespace coldtally;
using faults::Disk;
using faults::DiskEvent;
using faults::DiskImage;
using faults::DiskState;
using faults::Random;

const Instant now = faults::asked_at();
constexpr std::size_t most_moments = 1000;

/// What a ledger is after a whole number of batches; none where it is not there.
struct Whole {
    EntryNumber entries = 0;
    std::string chain;
    friend bool operator==(const Whole&, const Whole&) = default;
};

Whole whole(const std::string& path) {
    if (!fs::exists(path)) return {};
    const auto v = Ledger(path).verify();
    if (!v.findings.empty()) throw std::runtime_error("does not verify: " + english().say(v.findings.front()));
    return {v.entries, v.chain};
}

/// What is done to a ledger, each step acknowledged when it returns.
struct Scenario {
    std::string name;
    std::function<void(const std::string& path)> before;  ///< not logged
    std::vector<std::function<void(const std::string& path)>> steps;
    int serial = 0;               ///< of a batch that comes after all of them; 0: none does
    std::string made = "ledger";  ///< the name of what the steps write
};

struct Log {
    std::vector<DiskEvent> events;
    std::vector<Whole> after;  ///< the first: before any step
};

Log log_of(const Scenario& scenario, const fs::path& folder) {
    fs::create_directory(folder);
    const std::string path = (folder / "ledger").string(), made = (folder / scenario.made).string();
    if (scenario.before) scenario.before(path);
    Log out;
    out.after.push_back(whole(made));
    Disk& disk = Disk::get();
    disk.watch(folder.string());
    for (const auto& step : scenario.steps) {
        step(path);
        disk.mark();
        disk.pause(true);
        out.after.push_back(whole(made));
        disk.pause(false);
    }
    out.events = disk.stop();
    return out;
}

void write(const DiskImage& image, const fs::path& folder) {
    fs::remove_all(folder);
    fs::create_directory(folder);
    for (const auto& [name, bytes] : image) std::ofstream(folder / name, std::ios::binary) << bytes;
}

/// What is wrong with the ledger of an image; nothing where it is as it must be. `acknowledged`: how many steps were.
std::string wrong(const std::string& path, const Log& log, int acknowledged, int serial, bool post) {
    try {
        const Whole found = whole(path);
        const auto step = static_cast<std::size_t>(acknowledged);
        if (!(found == log.after[step]) && (step + 1 == log.after.size() || !(found == log.after[step + 1])))
            return std::to_string(found.entries) + " entries, " + std::to_string(log.after[step].entries) +
                   " were acknowledged";
        if (post && found.entries > 0) {
            Ledger(path, Ledger::Mode::write).post(faults::batch(serial, 1), now);
            if (whole(path).entries != found.entries + 2) return "the next post is not in it";
        }
    } catch (const std::exception& e) {
        return e.what();
    }
    return {};
}

struct Counts {
    long moments = 0, images = 0, second = 0, wrong = 0;
    std::string first;
};

/// Every moment of a log, each with its images. `factor` as of the program; a disk that does not heed syncs is asked
/// until it has lost.
Counts images_of(const Scenario& scenario, const Log& log, const fs::path& folder, int factor, bool heeds_syncs,
                 std::uint64_t seed) {
    using Loss = DiskState::Loss;
    Counts out;
    const Log from{{}, {log.after.back()}};  // of a copy: what it was made of, which is the same
    // of a log of thousands of events every tenth or so, which are of all kinds, too
    const std::size_t every = log.events.size() / most_moments + 1;
    if (every > 1) factor = std::max(1, factor / 4);
    DiskState state(heeds_syncs);
    Random random(seed);
    const std::string path = (folder / scenario.made).string(), link = (folder.parent_path() / "link").string();
    const std::string ledger = (folder / "ledger").string();
    const bool copies = path != ledger;
    fs::remove(link);
    fs::create_symlink(path, link);
    std::size_t begin = 0;
    while (log.events[begin].kind != DiskEvent::Kind::sync_names) state.apply(log.events[begin++]);
    for (std::size_t i = begin; i < log.events.size(); ++i) {
        state.apply(log.events[i]);
        const bool marked = log.events[i].kind == DiskEvent::Kind::mark;
        if (i % every != 0 && !marked) continue;
        ++out.moments;
        std::vector<Loss> losses;
        if (factor > 0 || marked)
            losses = {Loss::all, Loss::none, Loss::bytes, Loss::names};
        else
            losses = {static_cast<Loss>(random.from(0, 3))};
        if (state.settled()) losses.resize(1);
        for (int n = 0; !state.settled() && n < (factor == 0 ? 1 : 4 * factor); ++n) losses.push_back(Loss::some);
        for (const Loss loss : losses) {
            write(state.image(loss, random), folder);
            ++out.images;
            const auto say = [&](const std::string& what) {
                if (what.empty()) return;
                if (++out.wrong == 1)
                    out.first = scenario.name + ", seed " + std::to_string(seed) + ", after event " +
                                std::to_string(i) + " of " + std::to_string(log.events.size()) + ", loss " +
                                std::to_string(static_cast<int>(loss)) + ": " + what;
            };
            if (heeds_syncs && fs::exists(path) && fs::exists(path + "-journal") && random.one_in(factor > 0 ? 4 : 8)) {
                // the power fails once more, while what is left is taken back
                Disk::get().watch(folder.string());
                try {
                    whole(path);
                } catch (const std::exception&) {  // is found below
                }
                const auto events = Disk::get().stop();
                DiskState again;
                std::size_t k = 0;
                while (events[k].kind != DiskEvent::Kind::sync_names) again.apply(events[k++]);  // what there was
                const auto until =
                    random.from(static_cast<std::int64_t>(k) + 1, static_cast<std::int64_t>(events.size()));
                for (; k < static_cast<std::size_t>(until); ++k) again.apply(events[k]);
                write(again.image(Loss::some, random), folder);
                ++out.second;
            }
            // a process that was killed has lost nothing: its ledger is reached by a link from elsewhere, too, where no
            // journal lies
            const bool by_link = loss == Loss::none && random.one_in(2);
            say(wrong(by_link ? link : path, log, state.marks(), scenario.serial,
                      scenario.serial > 0 && random.one_in(5)));
            if (copies && !heeds_syncs) continue;
            if (copies && (!fs::exists(ledger) || !wrong(ledger, from, 0, 0, false).empty()))
                say("what was copied is not what it was");
            if (!heeds_syncs && out.wrong > 0) return out;
        }
    }
    return out;
}

std::function<void(const std::string&)> post_of(int serial, int count) {
    return [=](const std::string& path) { Ledger(path, Ledger::Mode::write).post(faults::batch(serial, count), now); };
}

std::vector<Scenario> scenarios(bool all) {
    const auto kept = std::make_shared<std::optional<Ledger>>();
    std::vector<Scenario> out = {
        {"posts", faults::make_clinic, {post_of(1, 1), post_of(2, 4), post_of(3, 90)}, 9},
        {"posts of one that stays open",
         faults::make_clinic,
         {[kept](const std::string& path) { kept->emplace(path, Ledger::Mode::write).post(faults::batch(1, 1), now); },
          [kept](const std::string&) { (*kept)->post(faults::batch(2, 30), now); },
          [kept](const std::string&) { (*kept)->post(faults::batch(3, 2), now), kept->reset(); }},
         9},
        {"import",
         faults::make_clinic,
         {[](const std::string& path) {
             Ledger(path, Ledger::Mode::write)
                 .import_readings(faults::logger_request(), {faults::logger_file(5, 300), faults::logger_file(3, 200)},
                                  now);
         }},
         9},
        {"creation",
         nullptr,
         {[](const std::string& path) { Ledger(path, Ledger::Mode::create).post(faults::definitions(), now); },
          [](const std::string& path) {
              Ledger(path, Ledger::Mode::write)
                  .post(
                      R"({"kind":"check","at":"2026-03-09T21:00:00Z","place":"main","scale":"C",)"
                      R"("temperature":"4","by":"QA"})",
                      now);
          }},
         0},
    };
#ifdef FAULTS_COPIES
    out.push_back({"backup",
                   faults::make_clinic,
                   {[](const std::string& path) { back_up(path, path + ".copy"); }},
                   9,
                   "ledger.copy"});
    out.push_back({"restore",
                   faults::make_clinic,
                   {[](const std::string& path) { restore(path, path + ".back"); }},
                   9,
                   "ledger.back"});
#endif
    if (all)
        out.push_back(
            {"a batch that is too large to be kept in memory", faults::make_clinic, {post_of(1, 12'000)}, 300});
    return out;
}

}  // namespace

int main(int count, char** words) {
    const int factor = count > 1 ? std::atoi(words[1]) : 0;
    const auto begin = std::chrono::steady_clock::now();
    const faults::Folder work;
    Counts all;
    bool lost = true;
    std::uint64_t seed = 20260302;
    Disk::get();
    for (const auto& scenario : scenarios(factor > 0)) {
        const Log log = log_of(scenario, work.path() / scenario.name);
        long syncs = 0, folder_syncs = 0, writes = 0;
        for (const auto& e : log.events) {
            syncs += e.kind == DiskEvent::Kind::sync;
            folder_syncs += e.kind == DiskEvent::Kind::sync_names;
            writes += e.kind == DiskEvent::Kind::write;
        }
        if (syncs < 4 || folder_syncs < 2 || writes < 10) {
            std::cout << scenario.name << ": the disk did not see it: " << writes << " writes, " << syncs << " syncs, "
                      << folder_syncs << " of the folder\n";
            return 1;
        }
        const Counts c = images_of(scenario, log, work.path() / "image", factor, true, ++seed);
        // the same on a disk that says it has synced: were nothing lost there, this would prove nothing
        const Counts lying = images_of(scenario, log, work.path() / "image", factor, false, ++seed);
        std::cout << scenario.name << ": " << writes << " writes, " << syncs << " syncs, " << folder_syncs
                  << " of the folder; " << c.moments << " moments, " << c.images << " images, " << c.second
                  << " of them cut again while they were taken back, " << c.wrong
                  << " wrong; on a disk that ignores syncs: "
                  << (lying.wrong ? lying.first : "nothing is lost, which cannot be") << std::endl;
        if (c.wrong) std::cout << "  " << c.first << "\n";
        lost = lost && lying.wrong > 0;
        all.moments += c.moments;
        all.images += c.images;
        all.wrong += c.wrong;
    }
    const auto took =
        std::chrono::duration_cast<std::chrono::milliseconds>(std::chrono::steady_clock::now() - begin).count();
    std::cout << "power: " << all.images << " images of " << all.moments << " moments, " << all.wrong << " wrong, in "
              << took << " ms\n";
    return all.wrong == 0 && lost ? 0 : 1;
}
