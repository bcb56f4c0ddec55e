#include "site.hpp"

#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>
#include <map>
#include <sstream>

#include "answers.hpp"
#include "coldtally/ledger.hpp"
#include "events.hpp"
#include "everyday.hpp"
#include "temporary.hpp"

using namespace coldtally;

namespace scenarios {

namespace {

/// A ledger on a temporary file, filled row by row.
class Site {
public:
    Site() {
        ledger_.emplace(file_.path(), Ledger::Mode::create);
        static constexpr const char* standard[] = {"site",
                                                   "product flu 2C/36F 8C/46F",
                                                   "lot flu A1 2026-12-31",
                                                   "lot flu B2 2026-12",
                                                   "place main 2C/36F 8C/46F",
                                                   "place spare 2C/36F 8C/46F",
                                                   "place counter 15C/59F 25C/77F",
                                                   "probe p C",
                                                   "probe q C",
                                                   "probe r C",
                                                   "probe f F",
                                                   "assign p main",
                                                   "assign q spare",
                                                   "assign r counter"};
        static_assert(std::size(standard) == standard_count);
        for (const char* row : standard) {
            Words w(row);
            add(event("01-01T00:00", w, names_));
        }
    }

    /// With a clock: it is now this time.
    void turn(const std::string& time) {
        if (!clock_) return;
        flush();
        recorded_ = instant(time);
    }

    void post(const std::string& time, Words w) {
        if (w.take("recorded") || w.take("clock")) {
            if (posted_ > 0 || waiting_ > EntryNumber{standard_count}) flush();
            recorded_ = instant(time);
            return;
        }
        const std::string name = w.option("as");
        EntryNumber entry = 0;
        if (is_work(w)) {
            flush();
            const Answers form(named_);
            const auto done = work({*ledger_, recorded_, names_, form}, time, w);
            entry = done.front();
            posted_ = std::max(posted_, *std::ranges::max_element(done));
        } else {
            add(event(time, w, names_));
            entry = posted_ + waiting_;
        }
        if (name.empty()) return;
        names_[name] = entry;
        named_[entry] = name;
    }

    /// From here on each row is of its own time.
    void start_clock() {
        if (posted_ > 0) unreadable("clock: must come before all events");
        clock_ = true;
    }

    /// "code: message" where it was refused and the file is as before.
    std::string refused(const std::string& time, Words w) {
        flush();
        const std::string before = bytes();
        try {
            const Answers form(named_);
            if (is_work(w))
                work({*ledger_, recorded_, names_, form}, time, w);
            else
                ledger_->post(event(time, w, names_).dump() + "\n", recorded_);
        } catch (const Error& e) {
            return bytes() != before ? "the file has changed" : std::string(code_name(e.code())) + ": " + e.what();
        }
        return "posted";
    }

    std::vector<std::string> answer(const std::string& time, Words w) {
        flush();
        Question question{instant(time), recorded_};
        if (w.take("known")) question.known_on = instant(w.next());
        try {
            const std::string what = w.next();
            const Answers form(named_);
            if (auto out = scenarios::answered({*ledger_, recorded_, names_, form}, question, what, w)) {
                if (!w.empty()) unreadable(what + ": not understood: " + w.rest());
                if (out->empty()) out->push_back("none");
                return *out;
            }
            return answered(question, what, w);
        } catch (const Error& e) {
            return {"refused: " + std::string(code_name(e.code()))};
        }
    }

    void flush() {
        if (waiting_ == 0) return;
        posted_ = ledger_->post(lines_, recorded_).back();
        lines_.clear();
        waiting_ = 0;
    }

private:
    static constexpr std::size_t standard_count = 14;

    void add(const Json& entry) {
        lines_ += entry.dump() + "\n";
        ++waiting_;
    }

    std::string bytes() const {
        std::ifstream in(file_.path(), std::ios::binary);
        return std::string(std::istreambuf_iterator<char>(in), {});
    }

    std::vector<std::string> stock(const Question& q, Words& w) const {
        const bool all = w.empty();
        const auto holding = all ? HoldingKey() : key_of(w);
        std::vector<std::string> out;
        for (const auto& row : ledger_->stock(q, recorded_).holdings) {
            if (all)
                out.push_back(Answers::holding(row.holding) + ": " + std::to_string(row.doses.count()) + ", expiry " +
                              row.expiry.text());
            else if (row.holding == holding) out.push_back(std::to_string(row.doses.count()));
        }
        return out;
    }

    std::vector<std::string> answered(const Question& q, const std::string& what, Words& w) {
        const Answers form(named_);
        std::vector<std::string> out;
        if (what == "stock") {
            out = stock(q, w);
        } else if (what == "accounts") {
            const auto a = ledger_->stock(q, recorded_).accounts;
            std::string line = "supplier " + std::to_string(a.supplier);
            const auto say = [&](const char* name, std::int64_t n) {
                if (n != 0) line += ", " + std::string(name) + " " + std::to_string(n);
            };
            say("patient", a.patient), say("wasted", a.wasted), say("returned", a.returned),
                say("transferred", a.transferred), say("variance", a.variance), say("on hand", a.on_hand);
            out.push_back(line);
        } else if (what == "review" || what == "given") {
            const bool all = what == "given" || w.take("all");
            const std::string token = what == "given" ? w.next() : "";
            const std::string word = what == "given" ? w.next() : "";
            for (const auto& row : ledger_->review(q, recorded_, all).doses) {
                if (what == "review")
                    out.push_back(row.patient + " " + with_reasons(finding_name(row.finding), row.reasons) +
                                  (row.guidance ? "; by " + form.entry(*row.guidance) : ""));
                else if (row.patient == token)
                    out.push_back(form.part(word, row.history, row.allowance_seconds));
            }
        } else if (what == "excursions" || what == "inside") {
            const std::string place = w.next();
            const Instant from = instant(w.next()), until = instant(w.next());
            for (const auto& row : ledger_->excursions(place, from, until, q, recorded_).excursions) {
                out.push_back(std::string(side_name(row.side)) + " " + std::string(excursion_kind_name(row.kind)) +
                              " " + short_time(row.from_s) + " to " + short_time(row.until_s) + ", " +
                              row.duration_s.text() + " s, " + row.degree_s.text() + " Cs, peak " + row.peak_C.text() +
                              (row.open ? ", open" : ""));
                if (what == "inside")
                    for (const auto& in : row.holdings)
                        out.push_back(Answers::holding(in.holding) + ", " + std::to_string(in.doses.count()) + ": " +
                                      Answers::exposure(in.exposure, in.allowance_seconds));
            }
        } else if (what == "marks") {
            const std::string place = w.next();
            const Instant from = instant(w.next()), until = instant(w.next());
            for (const auto& row : ledger_->excursions(place, from, until, q, recorded_).excursions) {
                std::string line = std::string(side_name(row.side)) + " " + std::string(excursion_kind_name(row.kind));
                for (const auto& mark : english().say(row.marks)) line += "; " + mark.substr(0, mark.find(':'));
                out.push_back(line);
            }
        } else if (what == "conditions") {
            const std::string place = w.next();
            const Instant from = instant(w.next()), until = instant(w.next());
            const auto c = ledger_->conditions(place, from, until, q, recorded_, w.empty() ? 10000 : w.number());
            std::string line = Answers::coverage(c.seconds);
            if (c.lowest_C) line += "; " + c.lowest_C->text() + " to " + c.highest_C.value().text();
            if (c.mean_C) line += "; mean " + c.mean_C->text();
            if (c.mean_kinetic_C) line += "; kinetic " + *c.mean_kinetic_C;
            out.push_back(line + "; excursions " + std::to_string(c.excursions));
        } else if (what == "explain") {
            for (const auto& line : ledger_->explain(key_of(w), q, recorded_).lines)
                out.push_back(std::string(static_cast<std::size_t>(line.indent), ' ') + english().say(line.text));
        } else {
            const bool all = w.empty();
            const auto holding = all ? HoldingKey() : key_of(w);
            for (const auto& row : ledger_->lists(q, recorded_).holdings) {
                if (!all && row.holding != holding) continue;
                if (what == "lists")
                    out.push_back((all ? Answers::holding(row.holding) + ": " : "") +
                                  with_reasons(list_name(row.list), row.reasons));
                else if (what == "notes")
                    for (const auto& note : english().say(row.notes)) out.push_back(note);
                else out.push_back(form.part(what, row.history, row.allowance_seconds));
            }
        }
        if (!w.empty()) unreadable(what + ": not understood: " + w.rest());
        if (out.empty()) out.push_back("none");
        return out;
    }

    tests::TemporaryFile file_;
    std::optional<Ledger> ledger_;
    std::string lines_;           // not posted yet
    EntryNumber waiting_ = 0, posted_ = 0;
    Instant recorded_ = instant("07-01T00:00");
    bool clock_ = false;
    Names names_;
    std::map<EntryNumber, std::string> named_;
};

/// Is the answer as expected, where `...` stands for any text? Then it is stated so, else as it is.
std::string compared(const std::string& answer, const std::string& expected) {
    std::size_t from = 0, begin = 0;
    for (std::size_t end; (end = expected.find("...", begin)) != std::string::npos; begin = end + 3) {
        const std::string part = expected.substr(begin, end - begin);
        const std::size_t at = answer.find(part, from);
        if (at == std::string::npos || (begin == 0 && at != 0)) return answer;
        from = at + part.size();
    }
    const std::string last = expected.substr(begin);
    return begin > 0 && answer.size() >= from + last.size() && answer.ends_with(last) ? expected : answer;
}

}  // namespace

std::vector<Row> run(std::string_view table) {
    Site site;
    std::vector<Row> out;
    std::vector<std::string> answer;  // lines that no row has claimed
    const auto rest_of_answer = [&] {
        if (answer.empty()) return;
        out.push_back({"  (more is answered)", "", answer.front()});
        answer.clear();
    };
    std::istringstream in{std::string(table)};
    std::string begun;  // a row that goes on in the next line
    for (std::string line; std::getline(in, line);) {
        // a comment begins with # and a blank, so that an entry may be named by #12
        std::string text = begun + trimmed(line.substr(0, line.find("# ")));
        begun.clear();
        if (text.ends_with(" \\")) {
            begun = text.substr(0, text.size() - 1);
            continue;
        }
        if (text.empty()) continue;
        std::string expected;
        if (const auto equals = text.find("= "); equals != std::string::npos) {
            expected = trimmed(text.substr(equals + 2));
            text = trimmed(text.substr(0, equals));
        }
        if (text.empty()) {
            out.push_back({"  and", expected, answer.empty() ? "no more" : compared(answer.front(), expected)});
            if (!answer.empty()) answer.erase(answer.begin());
            continue;
        }
        rest_of_answer();
        Words w(text);
        const std::string time = w.next();
        site.turn(time);
        if (w.take("?")) {
            answer = site.answer(time, w);
            out.push_back({text, expected, compared(answer.front(), expected)});
            answer.erase(answer.begin());
        } else if (w.take("!")) {
            const std::string refusal = site.refused(time, w);
            const auto colon = expected.find(": ");
            const bool as_expected =
                refusal.substr(0, refusal.find(": ")) == expected.substr(0, colon) &&
                (colon == std::string::npos || refusal.find(expected.substr(colon + 2)) != std::string::npos);
            out.push_back({text, expected, as_expected ? expected : refusal});
        } else if (!expected.empty()) {
            unreadable("an event with an answer: " + text);
        } else {
            site.post(time, w);
            if (w.take("clock")) site.start_clock();
        }
    }
    if (!begun.empty()) unreadable("it goes on after the last line of the table: " + begun);
    rest_of_answer();
    site.flush();
    return out;
}

void scenario(std::string_view table) {
    INFO(table);
    const auto rows = run(table);
    REQUIRE(!rows.empty());
    for (const auto& row : rows) {
        INFO(row.text);
        CHECK(row.answer == row.expected);
    }
}

}  // namespace scenarios
