// Openings: a ledger that grows is opened again and again beside its writer, and is never called damaged.
//
// openings [COUNT]: 20,000 unless stated.
#include <sys/mman.h>
#include <sys/wait.h>
#include <unistd.h>

#include <atomic>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <iostream>
#include <new>

#include "coldtally/ledger.hpp"
#include "faults/clinic.hpp"
#include "faults/folder.hpp"

namespace {

using namespace coldtally;

constexpr int readers = 2, posts_in_a_ledger = 400;

struct Shared {
    std::atomic<int> ledger{0};  // the number of the one that is written to
    std::atomic<long> opened{0}, busy{0}, posts{0};
    std::atomic<bool> over{false};
    char error[600] = {};
};

std::string path_of(const std::filesystem::path& folder, int number) {
    return (folder / ("ledger-" + std::to_string(number))).string();
}

void write_on(const std::filesystem::path& folder, Shared& shared) {
    for (int number = 0; !shared.over; ++number) {
        faults::make_clinic(path_of(folder, number));
        shared.ledger = number;
        if (number > 1) std::filesystem::remove(path_of(folder, number - 2));
        for (int i = 0; i < posts_in_a_ledger && !shared.over; ++i) {
            // from one entry to some pages at once: the file grows by little and by much
            const int checks = i % 7 == 0 ? 60 : 1;
            std::string lines = faults::batch(i, checks);
            lines.resize(lines.rfind("{"));  // without the give: doses run out
            Ledger(path_of(folder, number), Ledger::Mode::write, Duration(60)).post(lines, faults::asked_at());
            ++shared.posts;
        }
    }
}

void read_on(const std::filesystem::path& folder, long count, Shared& shared) {
    while (!shared.over && shared.opened < count) {
        const int number = shared.ledger;
        try {
            if (Ledger(path_of(folder, number), Ledger::Mode::read, Duration(60)).zone().name().empty())
                throw std::runtime_error("the site is not there");
            ++shared.opened;
        } catch (const Error& e) {
            if (e.code() == Code::busy) {
                ++shared.busy;
            } else if (!(e.code() == Code::ledger_missing && shared.ledger > number + 1)) {
                std::snprintf(shared.error, sizeof shared.error, "opening %ld: %s", shared.opened.load(), e.what());
                shared.over = true;
            }
        } catch (const std::exception& e) {
            std::snprintf(shared.error, sizeof shared.error, "opening %ld: %s", shared.opened.load(), e.what());
            shared.over = true;
        }
    }
}

}  // namespace

int main(int count, char** words) {
    const long openings = count > 1 ? std::atol(words[1]) : 20'000;
    const faults::Folder folder;
    void* memory = mmap(nullptr, sizeof(Shared), PROT_READ | PROT_WRITE, MAP_SHARED | MAP_ANONYMOUS, -1, 0);
    if (memory == MAP_FAILED) return 1;
    auto& shared = *new (memory) Shared;
    const pid_t writer = fork();
    if (writer == 0) {
        try {
            write_on(folder.path(), shared);
        } catch (const std::exception& e) {
            std::snprintf(shared.error, sizeof shared.error, "the writer: %s", e.what());
            shared.over = true;
        }
        _exit(0);
    }
    while (!std::filesystem::exists(path_of(folder.path(), 0)) && !shared.over) usleep(1000);
    for (int i = 0; i < readers; ++i)
        if (fork() == 0) {
            read_on(folder.path(), openings, shared);
            _exit(0);
        }
    for (int i = 0; i < readers + 1; ++i) {
        int status = 0;
        const pid_t ended = wait(&status);
        if (ended == writer || !WIFEXITED(status) || WEXITSTATUS(status) != 0 || i == readers - 1) shared.over = true;
    }
    std::cout << "openings: " << shared.opened << " beside " << shared.posts << " posts, " << shared.busy
              << " waited in vain";
    std::cout << (shared.error[0] ? ": " : "\n");
    if (shared.error[0]) std::cout << shared.error << "\n";
    return !shared.error[0] && shared.opened >= openings && shared.busy == 0 && shared.posts > 0 ? 0 : 1;
}
