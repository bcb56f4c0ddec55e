// Copies: a backup of a ledger in use, and a ledger from it; a link noted on paper.
#include "ledger/made_file.hpp"

#include <sys/stat.h>

#include <filesystem>

#include "coldtally/copies.hpp"
#include "coldtally/forms.hpp"
#include "temporary.hpp"

using namespace coldtally;
using namespace tests;

namespace {

std::string answers(const std::string& path) {
    std::string all;
    const Ledger ledger(path);
    ledger.for_each_entry([&](const Entry& e) { all += to_json(e) + "\n"; });
    return all + to_json(ledger.lists({}, now)) + to_json(ledger.stock({}, now));
}

template <class F>
void refused(Code code, const std::string& word, F f) {
    try {
        f();
        FAIL_CHECK("was not refused");
    } catch (const Error& e) {
        INFO(e.what());
        CHECK(code_name(e.code()) == code_name(code));
        CHECK(std::string(e.what()).find(word) != std::string::npos);
    }
}

/// As a program of the first format left it: without the triggers that came with the second.
void make_format_1(const std::string& path) {
    make(path);
    Sql db(path);
    for (const auto& name : db.column("SELECT name FROM sqlite_schema WHERE type = 'trigger' AND (name LIKE "
                                      "'%_is_added_with_%' OR name LIKE '%_is_changed_with_%'"
                                      " OR name LIKE 'tip_%' OR name = 'entry_follows_the_tip' OR name IN "
                                      "('balance_is_never_removed', 'probe_extent_is_never_removed'))"))
        REQUIRE(db.run("DROP TRIGGER " + name).empty());
    REQUIRE(db.run("CREATE TRIGGER entry_follows_on BEFORE INSERT ON entry WHEN NEW.entry <> 1 + coalesce((SELECT "
                   "max(entry) FROM entry), 0)"
                   " BEGIN SELECT raise(ABORT, 'a ledger is append-only: an entry takes the next number'); END; PRAGMA "
                   "user_version = 1")
                .empty());
}

}  // namespace

TEST_CASE("a backup of a ledger in use answers as the ledger did, and is its owner's alone") {
    const tests::TemporaryFile file;
    make(file.path());
    const std::string copy = file.path() + ".copy", again = file.path() + ".again";
    Ledger in_use(file.path(), Ledger::Mode::write);
    const auto made = back_up(file.path(), copy);
    CHECK(made.verified.findings.empty());
    CHECK(made.verified.entries == 7);
    CHECK(made.verified.readings == 700);
    const std::string before = answers(file.path());
    in_use.post(a_check, now);
    CHECK(answers(copy) == before);
    struct stat about;
    REQUIRE(stat(copy.c_str(), &about) == 0);
    CHECK((about.st_mode & 0777) == 0600);
    CHECK(restore(copy, again).verified.chain == made.verified.chain);
    CHECK(answers(again) == before);
    CHECK_NOTHROW(Ledger(again, Ledger::Mode::write).post(a_check, now));
    for (const auto& one : std::filesystem::directory_iterator(std::filesystem::path(file.path()).parent_path()))
        CHECK(one.path().string().find(".unfinished-") == std::string::npos);
}

TEST_CASE("no copy is made over a file, of what does not verify, or of what is no ledger") {
    const tests::TemporaryFile file;
    make(file.path());
    const std::string copy = file.path() + ".copy";
    write(copy, "mine");
    refused(Code::ledger_exists, "there is a file of this name already", [&] { back_up(file.path(), copy); });
    CHECK(bytes_of(copy) == "mine");
    refused(Code::not_a_ledger, "not a ledger", [&] { restore(copy, copy + ".new"); });
    std::filesystem::remove(copy);
    refused(Code::ledger_missing, "no such ledger", [&] { restore(copy, copy + ".new"); });
    tamper(file.path(), "UPDATE movement SET doses = 11");
    refused(Code::damaged, "no copy was made: movement: ", [&] { back_up(file.path(), copy); });
    refused(Code::damaged, "no copy was made: movement: ", [&] { restore(file.path(), copy); });
    CHECK_FALSE(std::filesystem::exists(copy));
}

TEST_CASE("a ledger of the first format is refused with the way out, and restored with its chain") {
    const tests::TemporaryFile file;
    make_format_1(file.path());
    const std::string whole = bytes_of(file.path()), now_2 = file.path() + ".2", like = file.path() + ".like";
    refused(Code::older_format, "`coldtally restore` makes a copy", [&] { Ledger(file.path()).lists({}, now); });
    refused(Code::older_format, "`coldtally restore` makes a copy", [&] { back_up(file.path(), now_2); });
    const auto made = restore(file.path(), now_2);
    CHECK(made.format == 1);
    CHECK(made.format_now == 2);
    make(like);
    CHECK(answers(now_2) == answers(like));
    CHECK(made.verified.chain == Ledger(like).verify().chain);
    CHECK(bytes_of(file.path()) == whole);
    // what was altered in it is not carried over
    REQUIRE(run(file.path(),
                "DROP TRIGGER entry_is_never_changed; UPDATE entry SET body = replace(body, '\"doses\":10', "
                "'\"doses\":12') WHERE entry = 7")
                .empty());
    refused(Code::damaged, "entry 7 is altered", [&] { restore(file.path(), now_2 + ".new"); });
    CHECK_FALSE(std::filesystem::exists(now_2 + ".new"));
}

TEST_CASE("a ledger of the first format whose last entries are missing is not restored") {
    for (const char* gone : {"entry = 7", "entry >= 6", "entry >= 1"}) {
        INFO(gone);
        const tests::TemporaryFile file;
        make_format_1(file.path());
        REQUIRE(run(file.path(), std::string("DROP TRIGGER entry_is_never_removed; DELETE FROM entry WHERE ") + gone)
                    .empty());
        const std::string to = file.path() + ".new";
        refused(Code::damaged, "the last entry is not the one that was posted last, entry 7",
                [&] { restore(file.path(), to); });
        CHECK_FALSE(std::filesystem::exists(to));
    }
    const tests::TemporaryFile file;
    make_format_1(file.path());
    REQUIRE(run(file.path(), "DELETE FROM tip").empty());
    refused(Code::damaged, "has lost its last link", [&] { restore(file.path(), file.path() + ".new"); });
}

TEST_CASE("a message shows the name of a file in one line, whatever its bytes and length") {
    const tests::TemporaryFile file;
    make(file.path());
    const std::string folder = std::filesystem::path(file.path()).parent_path().string();
    const auto said = [](auto f) {
        try {
            f();
        } catch (const Error& e) {
            return std::string(e.what());
        }
        FAIL("was not refused");
        return std::string();
    };
    // a line end, an escape sequence of terminals, a byte that is no UTF-8, a mark that turns the direction of writing
    const std::string odd = folder + "/a\nb\x1b[2J\xff\u202ec";
    const std::string shown = "/a\\nb\\u001b[2J\xEF\xBF\xBD\\u202ec\"";
    const auto shows = [&](const std::string& message) {
        INFO(message);
        CHECK(message.find(shown) != std::string::npos);
        for (const char c : message) CHECK(static_cast<unsigned char>(c) >= 0x20);
        CHECK(message.find("\u202e") == std::string::npos);
    };
    shows(said([&] { back_up(odd, file.path() + ".copy"); }));  // is not there
    shows(said([&] { restore(odd, file.path() + ".copy"); }));
    shows(said([&] { Ledger{odd}; }));
    back_up(file.path(), odd);
    shows(said([&] { back_up(file.path(), odd); }));  // is there
    shows(said([&] { Ledger(odd).post(a_check, now); }));
    tamper(odd, "UPDATE movement SET doses = 11");
    shows(said([&] { restore(odd, file.path() + ".copy"); }));
    write(odd, "no ledger at all");
    shows(said([&] { restore(odd, file.path() + ".copy"); }));
    // a name that is plain is shown as it is
    CHECK(said([&] { back_up(file.path(), file.path()); }).find(file.path() + ": there is") == 0);
    const std::string umlauts = folder + "/Kühlschrank 2.ledger";
    CHECK(said([&] { Ledger{umlauts}; }).find(umlauts + ": no such ledger") == 0);
    // and of a long one its beginning
    const std::string longest(1'000'000, 'x');
    for (const std::string& message : {said([&] { back_up(longest, file.path() + ".copy"); }),
                                       said([&] { restore(longest, file.path() + ".copy"); }),
                                       said([&] { back_up(file.path(), longest); }), said([&] { Ledger{longest}; })}) {
        INFO(message.substr(0, 1000));
        CHECK(message.size() < 500);
        CHECK(message.find("(1000000 characters)") != std::string::npos);
    }
}

TEST_CASE("a link noted on paper finds a ledger that was made anew as a whole") {
    const tests::TemporaryFile file;
    make(file.path());
    const auto noted = link_to_note(Ledger(file.path()).verify());
    REQUIRE(noted);
    CHECK(noted->text() == "7:" + Ledger(file.path()).verify().chain.substr(0, 16));
    CHECK(Ledger(file.path()).verify(parse_noted_link(noted->text())).findings.empty());
    Ledger(file.path(), Ledger::Mode::write).post(a_check, now);
    CHECK(Ledger(file.path()).verify(noted).findings.empty());  // what came after does not matter
    const std::string other = file.path() + ".other";
    std::string entries;
    Ledger(file.path()).for_each_entry([&](const Entry& e) { entries += to_json(e) + "\n"; });
    entries.replace(entries.find("\"doses\":10"), 10, "\"doses\":12");
    Ledger(other, Ledger::Mode::create).replay(entries);
    CHECK(Ledger(other).verify().findings.empty());
    const auto found = Ledger(other).verify(noted).findings;
    REQUIRE(found.size() == 1);
    CHECK(english().say(found.front()).find("noted: entry 7 had the link " + noted->digits) == 0);
    CHECK(found.front().code() == "noted-other-link");
    const std::string shorter = file.path() + ".shorter";
    Ledger(shorter, Ledger::Mode::create).replay(entries.substr(0, entries.find("{\"entry\":7")));
    CHECK(english().say(Ledger(shorter).verify(noted).findings.at(0)).find("noted: entry 7 was there") == 0);
    for (const char* wrong : {"", "7", "7:", "7:123", ":0123456789abcdef", "0:0123456789abcdef", "x:0123456789abcdef",
                              "7:0123456789abcdeg", "7 0123456789abcdef"})
        refused(Code::bad_value, "against: ", [&] { parse_noted_link(wrong); });
    CHECK(parse_noted_link("7:0123456789ABCDEF").digits == "0123456789abcdef");
}
