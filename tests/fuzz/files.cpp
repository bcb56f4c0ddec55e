// Files: a whole ledger's bytes, and what is asked of a ledger with a text of anybody's.
#include <algorithm>
#include <cstring>
#include <fstream>
#include <iterator>
#include <map>

#include "coldtally/ledger.hpp"
#include "faults/asking.hpp"
#include "faults/clinic.hpp"
#include "faults/folder.hpp"
#include "fuzz/check.hpp"
#include "fuzz/targets.hpp"

namespace fuzz {

using namespace coldtally;

namespace {

/// A small ledger, its bytes, and what it answers.
struct Made {
    faults::Folder folder;
    std::string path = (folder.path() / "made").string(), damaged = (folder.path() / "ledger").string();
    std::string bytes;
    std::map<std::string, std::string> answers;
    Made() {
        faults::make_clinic(path);
        std::ifstream in(path, std::ios::binary);
        bytes.assign(std::istreambuf_iterator<char>(in), {});
        Ledger l(path);
        for (const auto& q : faults::questions()) answers[q.name] = q.ask(l);
    }
};
Made& made() {
    static Made one;
    return one;
}

/// An input that is no database is what is done to one, step by step: what, where (three bytes), how many, and the
/// bytes to be written. So an input stays small, and means the same to a ledger of another format.
std::string edited(std::string_view steps, std::string bytes) {
    constexpr std::size_t page = 4096;
    for (std::size_t i = 0; i + 5 <= steps.size() && bytes.size() >= 2 * page;) {
        const auto byte = [&](std::size_t k) {
            return static_cast<std::size_t>(static_cast<unsigned char>(steps[i + k]));
        };
        const std::size_t what = byte(0) % 8, at = (byte(1) << 16 | byte(2) << 8 | byte(3)) % bytes.size();
        std::size_t count = byte(4);
        i += 5;
        const std::size_t pages = bytes.size() / page;
        if (what < 4) {  // written: the next bytes
            count = std::min({count % 32 + 1, steps.size() - i, bytes.size() - at});
            std::memcpy(bytes.data() + at, steps.data() + i, count);
            i += count;
        } else if (what == 4) {
            std::fill_n(bytes.begin() + static_cast<std::ptrdiff_t>(at), std::min(count * 16, bytes.size() - at), '\0');
        } else if (what == 5) {
            std::memmove(bytes.data() + count % pages * page, bytes.data() + at / page % pages * page, page);
        } else if (what == 6) {
            const auto a = bytes.begin() + static_cast<std::ptrdiff_t>(at / page % pages * page);
            std::swap_ranges(a, a + page, bytes.begin() + static_cast<std::ptrdiff_t>(count % pages * page));
        } else {
            bytes.resize(at);
        }
    }
    return bytes;
}

}  // namespace

void ledger(std::string_view bytes) {
    Made& m = made();
    const bool whole = bytes.starts_with("SQLite format 3");
    std::ofstream(m.damaged, std::ios::binary | std::ios::trunc)
        << (whole ? std::string(bytes) : edited(bytes, m.bytes));
    std::error_code ignored;
    std::filesystem::remove(m.damaged + "-journal", ignored);
    const auto words = [](const std::string& name, const Error& e) {
        const std::string wrong = faults::wrong_with_error(e.what());
        must(wrong.empty(), name + ": the error " + wrong);
    };
    bool verifies = false;
    try {
        verifies = Ledger(m.damaged, Ledger::Mode::read, Duration(1)).verify().findings.empty();
    } catch (const Error& e) {
        words("verify", e);
    }
    // a third of the questions, another for each input
    std::size_t turn = bytes.size();
    for (const auto& q : faults::questions()) {
        if (turn++ % 3 != 0) continue;
        std::string answer;
        try {
            Ledger l(m.damaged, Ledger::Mode::read, Duration(1));
            answer = q.ask(l);
        } catch (const Error& e) {
            words(q.name, e);
            continue;
        }
        must(whole || !verifies || answer == m.answers.at(q.name), q.name + ": another answer, and it verifies");
    }
}

void draft(std::string_view bytes) {
    Made& m = made();
    static Ledger clinic(m.path);
    if (bytes.empty()) return;
    const char what = bytes.front();
    const auto rest = bytes.substr(1);
    refusing([&] {
        if (what == 'r') {
            RecordsRequest request;
            request.by = "QA";
            clinic.give_records(request, rest, faults::asked_at());
        } else if (what == 's') {
            clinic.scan(rest, {}, faults::asked_at());
        } else {
            clinic.draft(rest, faults::asked_at());
        }
    });
}

}  // namespace fuzz
