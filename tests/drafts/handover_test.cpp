// Doses that leave with their history. All data invented. What three sites add up is compared with what one ledger adds
// up that kept the doses in one site: exactly equal, since exposure is additive (the model's own rule, stated in
// lib/exposure/README.md).
#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>
#include <sstream>

#include <nlohmann/json.hpp>

#include "clinic.hpp"
#include "coldtally/handover_work.hpp"
#include "said.hpp"
#include "temporary.hpp"

using namespace coldtally;
using coldtally::tests::at;
using coldtally::tests::Clinic;
using coldtally::tests::readings;
using nlohmann::json;

namespace {

const std::string product =
    R"({"kind":"product","product":"elm","name":"Elm, invented","range":{"low":{"C":"2"},"high":{"C":"8"}},)"
    R"("freeze_limit":{"C":"0"},)"
    R"("allowances":[{"band":{"low":{"C":"8"},"high":{"C":"12"}},"seconds":86400,"source":"invented"}],)"
    R"("beyond_use":{"first puncture":2419200},"doses_per_vial":10})";
const std::string lot = R"({"kind":"lot","product":"elm","lot":"A1","expiry":"2026-12"})";
std::string site(const char* name) { return std::string(R"({"kind":"site","name":")") + name + R"(","zone":"UTC"})"; }
std::string place(const std::string& id) {
    return R"({"kind":"place","place":")" + id +
           R"(","name":"P","type":"refrigerator","range":{"low":{"C":"2"},"high":{"C":"8"}}})";
}
std::vector<std::string> probe(const std::string& id, const std::string& in) {
    return {R"({"kind":"probe","probe":")" + id + R"(","scale":"C"})",
            R"({"kind":"certificate","at":"2026-01-01T00:00:00Z","probe":")" + id +
                R"(","expires":"2027-01-01","tolerance":"0.5"})",
            R"({"kind":"assign","at":"2026-01-01T00:00:00Z","probe":")" + id + R"(","place":")" + in + "\"}"};
}

// a day in three places, from 08:00 to 12:00, to 16:00, to 20:00: in each it is too warm for a while, in the last too
// cold, too
const std::vector<std::pair<std::int64_t, std::string>> first = {
    {0, "5"}, {1800, "9.7"}, {3600, "13.2"}, {5400, "4"}, {7200, "4.1"}, {10800, "8.3"}, {14400, "7"}};
const std::vector<std::pair<std::int64_t, std::string>> second = {
    {0, "6"}, {3600, "11"}, {7200, "12.5"}, {10800, "6.9"}, {14400, "8.6"}};
const std::vector<std::pair<std::int64_t, std::string>> third = {
    {0, "7"}, {3600, "1"}, {7200, "-0.4"}, {10800, "9"}, {14400, "5"}};

void post_all(Clinic& c, std::initializer_list<std::vector<std::string>> blocks, const std::string& now) {
    std::vector<std::string> all;
    for (const auto& block : blocks) all.insert(all.end(), block.begin(), block.end());
    c.post(all, now);
}

std::string transfer(const std::string& in, const std::string& when, const std::string& to, int doses = 10) {
    return R"({"kind":"transfer","at":")" + when + R"(","place":")" + in + R"(","product":"elm","lot":"A1","doses":)" +
           std::to_string(doses) + R"(,"to":")" + to + R"(","reason":"used sooner there"})";
}
std::string receive(const std::string& in, const std::string& when, const std::string& handover) {
    std::string file = handover;
    while (!file.empty() && file.back() == '\n') file.pop_back();
    return R"({"kind":"receive","at":")" + when + R"(","place":")" + in +
           R"(","product":"elm","lot":"A1","doses":10,"handover":)" + file + "}";
}
History now_of(const Clinic& c, const std::string& in, const std::string& when) {
    for (const auto& row : c.ledger.lists({at(when), std::nullopt}, at(when)).holdings)
        if (row.holding.place == in) return row.history;
    FAIL("no doses in " + in);
    return {};
}
EntryNumber last_of(const Clinic& c) {
    EntryNumber out = 0;
    c.ledger.for_each_entry([&](const Entry& e) { out = e.number; });
    return out;
}

/// The first site until noon, with a guidance that clears what was open at 09:30 and shortens the use; the transfer is
/// the last entry.
void fill_first(Clinic& c, bool with_transfer) {
    post_all(
        c,
        {{site("North"), product, lot, place("a")},
         probe("p", "a"),
         {R"({"kind":"receive","at":"2026-06-01T08:00:00Z","place":"a","product":"elm","lot":"A1","doses":10})",
          readings("2026-06-01T08:00:00Z", first),
          R"({"kind":"guidance","at":"2026-06-01T11:00:00Z","through":"2026-06-01T09:30:00Z","product":"elm",)"
          R"("lot":"A1","verdict":"use-by","use_by":"2026-11-15","issuer":"M","reference":"r"})"}},
        "2026-06-01T12:00:00Z");
    if (with_transfer) c.post({transfer("a", "2026-06-01T12:00:00Z", "South")}, "2026-06-01T12:00:00Z");
}

const HandoverAnswer handover_of(const Clinic& c, const std::string& now) {
    return c.ledger.handover(last_of(c), {}, at(now));
}

std::string content(const std::string& path) {
    std::ifstream in(path, std::ios::binary);
    std::ostringstream out;
    out << in.rdbuf();
    return out.str();
}

}  // namespace

TEST_CASE("doses sent over three sites carry exactly what one ledger adds up that kept them in one", "[handover]") {
    Clinic north, south, west, whole;
    fill_first(north, true);
    const std::string one = handover_json(handover_of(north, "2026-06-01T12:00:00Z"));

    post_all(
        south,
        {{site("South"), product, lot, place("b")},
         probe("p", "b"),
         {receive("b", "2026-06-01T12:00:00Z", one), readings("2026-06-01T12:00:00Z", second),
          R"({"kind":"beyond-use","at":"2026-06-01T13:00:00Z","place":"b","product":"elm","lot":"A1",)"
          R"("event":"first puncture"})"}},
        "2026-06-01T16:00:00Z");
    south.post({transfer("b", "2026-06-01T16:00:00Z", "West")}, "2026-06-01T16:00:00Z");
    const std::string two = handover_json(handover_of(south, "2026-06-01T16:00:00Z"));

    post_all(west,
             {{site("West"), product, lot, place("c")},
              probe("p", "c"),
              {receive("c", "2026-06-01T16:00:00Z", two), readings("2026-06-01T16:00:00Z", third)}},
             "2026-06-01T20:00:00Z");

    fill_first(whole, false);
    post_all(
        whole,
        {{place("b"), place("c")},
         probe("q", "b"),
         probe("r", "c"),
         {readings("2026-06-01T12:00:00Z", second, "q"), readings("2026-06-01T16:00:00Z", third, "r"),
          R"({"kind":"move","at":"2026-06-01T12:00:00Z","product":"elm","lot":"A1","from":{"place":"a"},)"
          R"("to":{"place":"b"},"doses":10})",
          R"({"kind":"beyond-use","at":"2026-06-01T13:00:00Z","place":"b","product":"elm","lot":"A1",)"
          R"("event":"first puncture"})",
          R"({"kind":"move","at":"2026-06-01T16:00:00Z","product":"elm","lot":"A1","from":{"place":"b"},)"
          R"("to":{"place":"c"},"doses":10})"}},
        "2026-06-01T20:00:00Z");

    const History apart = now_of(west, "c", "2026-06-01T20:00:00Z"), kept = now_of(whole, "c", "2026-06-01T20:00:00Z");
    CHECK(apart.total == kept.total);
    CHECK(apart.open == kept.open);
    CHECK(apart.use_by == kept.use_by);
    CHECK(apart.places == std::set<std::string>{"North/a", "South/b", "c"});
    CHECK(kept.places == std::set<std::string>{"a", "b", "c"});
    // the comparison compares something: all of it is there, and some of it is no longer open
    CHECK(kept.total.warm.estimate.sign() > 0);
    CHECK(kept.total.cold.estimate.sign() > 0);
    CHECK(kept.total.frozen.estimate.sign() > 0);
    CHECK(kept.total.allowances.at(0).sign() > 0);
    CHECK(kept.total.points > 0);
    CHECK(kept.open.warm < kept.total.warm.estimate);
    CHECK(kept.total.warm.at_least < kept.total.warm.at_most);
    CHECK(*kept.use_by == at("2026-06-29T13:00:00Z"));  // 28 days after 1 June, 13:00
}

TEST_CASE("a handover is the history just before the doses left, as it is known on the question's instant",
          "[handover]") {
    Clinic c;
    post_all(c,
             {{site("North"), product, lot, place("a")},
              probe("p", "a"),
              {R"({"kind":"receive","at":"2026-06-01T08:00:00Z","place":"a","product":"elm","lot":"A1","doses":20})",
               readings("2026-06-01T08:00:00Z", {{0, "5"}, {3600, "5"}, {5400, "20"}})}},
             "2026-06-01T10:00:00Z");
    c.post({transfer("a", "2026-06-01T09:30:00Z", "South")}, "2026-06-01T10:00:00Z");
    const auto first_known = handover_of(c, "2026-06-01T10:00:00Z");
    // 20 °C was read at 09:30, the instant at which they left: the half hour that leads there counts, the reading
    // itself does not
    CHECK(first_known.history.total.warm.estimate == Rational(1440));  // from 5 to 20 in 1800 s: above 8 after 360 s
    CHECK(first_known.history.total.points == 0);
    CHECK(first_known.doses == Doses(10));
    CHECK(first_known.left == at("2026-06-01T09:30:00Z"));
    CHECK(first_known.exposed);
    CHECK(first_known.list == List::quarantine);
    CHECK(first_known.reasons == std::vector<Reason>{Reason::warm});
    // what stays goes on; what left does not
    c.post({readings("2026-06-01T10:30:00Z", {{0, "20"}})}, "2026-06-01T12:00:00Z");
    CHECK(c.ledger.handover(first_known.transfer, {}, at("2026-06-01T12:00:00Z")).history == first_known.history);
    CHECK(now_of(c, "a", "2026-06-01T12:00:00Z").total.warm.estimate > Rational(1440));
    // readings of the time before that come later make another handover; what was known before is still told
    c.post({readings("2026-06-01T08:30:00Z", {{0, "9"}})}, "2026-06-01T13:00:00Z");
    const auto later = c.ledger.handover(first_known.transfer, {}, at("2026-06-01T13:00:00Z"));
    CHECK(later.history.total.warm.estimate > first_known.history.total.warm.estimate);
    CHECK(
        c.ledger.handover(first_known.transfer, {std::nullopt, at("2026-06-01T12:30:00Z")}, at("2026-06-01T13:00:00Z"))
            .history == first_known.history);
}

TEST_CASE("only a transfer that stands has a handover", "[handover]") {
    Clinic c;
    fill_first(c, true);
    const EntryNumber number = last_of(c);
    for (const EntryNumber other : {EntryNumber(0), EntryNumber(1), number + 1}) {
        CAPTURE(other);
        CHECK_THROWS_AS(c.ledger.handover(other, {}, at("2026-06-02T00:00:00Z")), Error);
    }
    CHECK_THROWS_AS(c.ledger.handover(number, {at("2026-06-01T11:00:00Z"), std::nullopt}, at("2026-06-02T00:00:00Z")),
                    Error);
    c.post({R"({"kind":"void","at":"2026-06-01T13:00:00Z","voids":)" + std::to_string(number) +
            R"(,"reason":"not sent"})"},
           "2026-06-01T13:00:00Z");
    try {
        c.ledger.handover(number, {}, at("2026-06-02T00:00:00Z"));
        FAIL("a handover of a transfer that was taken back");
    } catch (const Error& e) {
        CHECK(e.code() == Code::not_known);
        CHECK(std::string(e.what()).find("was taken back") != std::string::npos);
    }
}

TEST_CASE("what the form of a history cannot say is said beside it", "[handover]") {
    Clinic c;
    post_all(c,
             {{site("North"), product, lot, place("a")},
              probe("p", "a"),
              {R"({"kind":"receive","at":"2026-06-01T08:00:00Z","place":"a","product":"elm","lot":"A1","doses":20})",
               readings("2026-06-01T08:00:00Z", {{0, "5"}, {3600, "5"}}),
               R"({"kind":"hold","at":"2026-06-01T08:30:00Z","product":"elm","lot":"A1","reason":"dropped box"})"}},
             "2026-06-01T10:00:00Z");
    const auto says = [](const HandoverAnswer& a, const std::string& part) {
        return std::any_of(a.beside.begin(), a.beside.end(),
                           [&](const auto& one) { return english().say(one).find(part) != std::string::npos; });
    };
    c.post({transfer("a", "2026-06-01T09:50:00Z", "South", 5)}, "2026-06-01T10:00:00Z");
    const auto held = handover_of(c, "2026-06-01T10:00:00Z");
    CHECK_FALSE(held.exposed);
    CHECK(held.needed);
    CHECK(held.list == List::quarantine);
    CHECK(says(
        held,
        "HELD: dropped box (entry 10). The receiver must hold them, too, until it is lifted"));
    CHECK(says(held, "READINGS ARE MISSING for "));
    CHECK(says(held, "The way is not in it"));
    CHECK(held.beside.back().code() == "history-ends");
    const json file = json::parse(handover_json(held));
    CHECK(file["held_by"].empty());
    CHECK(file["places"] == json({"North/a"}));
    Clinic there;
    post_all(there, {{site("South"), product, lot, place("b")}}, "2026-06-01T10:00:00Z");
    std::string draft = receive("b", "2026-06-01T10:00:00Z", handover_json(held));
    draft = R"({"by":"cd",)" + draft.substr(1);
    const auto warnings = there.ledger.draft(draft, at("2026-06-01T10:00:00Z")).warnings;
    CHECK(std::any_of(warnings.begin(), warnings.end(), [](const auto& w) {
        return english().say(w).starts_with("READINGS WERE MISSING when the sender stated this history, for ");
    }));
    // and the sheet says all of it, with the caution
    const std::string sheet = to_table(held, TableStyle{Zone("UTC")});
    for (const char* part :
         {"DO NOT USE", "HELD: dropped box", "READINGS ARE MISSING", "Exposure alone never decides", "South",
          "elm (Elm, invented), lot A1", "5 doses", "entry 11 by QA", "Usable: NOT KNOWN", "2026-12-31",
          "LAST DAY NOT KNOWN: 5 doses are in no whole vials of 10"}) {
        CAPTURE(part, sheet);
        CHECK(sheet.find(part) != std::string::npos);
    }
    // condemned doses have none
    c.post(
        {R"({"kind":"guidance","at":"2026-06-01T09:52:00Z","through":"2026-06-01T09:51:00Z","product":"elm",)"
         R"("lot":"A1","verdict":"discard","issuer":"M","reference":"r"})",
         transfer("a", "2026-06-01T09:55:00Z", "South", 5)},
        "2026-06-01T10:00:00Z");
    const auto condemned = handover_of(c, "2026-06-01T10:00:00Z");
    CHECK(condemned.condemned);
    CHECK(says(condemned, "GUIDANCE SAYS DISCARD: M, r (entry 12)"));
    CHECK_THROWS_AS(handover_json(condemned), Error);
    CHECK(json::parse(to_json(condemned))["handover"].is_null());
}

TEST_CASE("readings that have not come yet make a handover needed", "[handover]") {
    Clinic c;
    post_all(
        c,
        {{site("North"), product, lot, place("a")},
         probe("p", "a"),
         {R"({"kind":"receive","at":"2026-06-01T08:00:00Z","place":"a","product":"elm","lot":"A1","doses":20})",
          readings("2026-06-01T08:00:00Z", {{0, "5"}, {3600, "5"}}), transfer("a", "2026-06-01T09:00:00Z", "South")}},
        "2026-06-01T10:00:00Z");
    // they left at the last reading: all is known, and in range
    const auto known = handover_of(c, "2026-06-01T10:00:00Z");
    CHECK(known.list == List::keep);
    CHECK_FALSE(known.needed);
    // half an hour after it nothing is near it any more, and what the logger saw may still show exposure
    c.post({transfer("a", "2026-06-01T09:50:00Z", "South")}, "2026-06-01T10:00:00Z");
    const auto awaited = handover_of(c, "2026-06-01T10:00:00Z");
    const auto& seconds = awaited.history.total.seconds;
    CHECK(seconds[static_cast<std::size_t>(Class::awaiting)] == Rational(20 * 60));
    CHECK(seconds[static_cast<std::size_t>(Class::unmonitored)] == Rational(0));
    CHECK(awaited.list == List::keep);
    CHECK_FALSE(awaited.exposed);
    CHECK(awaited.needed);
    // what is awaited of the place now is no note of doses that have left it
    CHECK_FALSE(coldtally::tests::says(awaited.notes, "no readings yet"));
}

TEST_CASE("doses that stood in an open incident are handed over with that said", "[handover]") {
    Clinic c;
    post_all(
        c,
        {{site("North"), product, lot, place("a")},
         probe("p", "a"),
         {R"({"kind":"receive","at":"2026-06-01T08:00:00Z","place":"a","product":"elm","lot":"A1","doses":20})",
          readings("2026-06-01T08:00:00Z", {{0, "5"}, {3600, "5"}, {7200, "5"}}),
          R"({"kind":"incident","at":"2026-06-01T09:20:00Z","incident":"i1","step":"noticed","place":"a",)"
          R"("text":"dark display"})",
          transfer("a", "2026-06-01T09:50:00Z", "South", 5)}},
        "2026-06-01T10:00:00Z");
    const auto sent = handover_of(c, "2026-06-01T10:00:00Z");
    CHECK_FALSE(sent.exposed);
    CHECK(sent.needed);
    CHECK(std::any_of(sent.beside.begin(), sent.beside.end(), [](const auto& one) {
        return english().say(one).starts_with("INCIDENT i1 IS OPEN: these doses stood in a in the time in doubt");
    }));
    CHECK(to_table(sent, TableStyle{Zone("UTC")}).find("INCIDENT i1 IS OPEN") != std::string::npos);
}

TEST_CASE("a transfer of doses that were ever out of range says so, also when guidance has cleared them",
          "[handover][everyday]") {
    Clinic c;
    fill_first(c, false);
    const Drafted d = c.ledger.draft(
        R"({"kind":"transfer","by":"cd","lot":"A1","doses":4,"to":"South","reason":"short-dated",)"
        R"("at":"2026-06-01T11:00:00Z"})",
        at("2026-06-01T12:00:00Z"));
    const auto warned = [](const Drafted& drafted) {
        return std::any_of(drafted.warnings.begin(), drafted.warnings.end(), [](const auto& w) {
            return english().say(w).starts_with(
                "WERE OUT OF RANGE: the doses of lot \"A1\" in \"a\" were too warm for at most ");
        });
    };
    CHECK(warned(d));
    Clinic clean;
    post_all(clean,
             {{site("North"), product, lot, place("a")},
              probe("p", "a"),
              {R"({"kind":"receive","at":"2026-06-01T08:00:00Z","place":"a","product":"elm","lot":"A1","doses":10})",
               readings("2026-06-01T08:00:00Z", {{0, "5"}, {3600, "5"}})}},
             "2026-06-01T09:00:00Z");
    CHECK_FALSE(warned(clean.ledger.draft(
        R"({"kind":"transfer","by":"cd","lot":"A1","doses":4,"to":"South","reason":"short-dated",)"
        R"("at":"2026-06-01T09:00:00Z"})",
        at("2026-06-01T09:00:00Z"))));
}

TEST_CASE("the files of a handover are new ones, and stand or fall with the transfer", "[handover]") {
    Clinic c;
    fill_first(c, false);
    const ::tests::TemporaryFile beside;
    const auto folder = std::filesystem::path(beside.path()).parent_path();
    const std::string file = folder / "h.json", sheet = folder / "h.txt";
    const TableStyle style{Zone("UTC")};
    const Instant now = at("2026-06-01T12:00:00Z");
    const auto draft = [&](int doses) {
        return c.ledger.draft(R"({"kind":"transfer","by":"cd","lot":"A1","doses":)" + std::to_string(doses) +
                                  R"(,"to":"South","reason":"short-dated"})",
                              now);
    };
    const EntryNumber before = last_of(c);

    // a dry run names them and writes nothing
    const auto tried = post_transfer(c.ledger, draft(4), file, true, now, true, style);
    CHECK(tried.files == std::vector<std::string>{file, sheet});
    CHECK_FALSE(std::filesystem::exists(file));
    CHECK(last_of(c) == before);
    // none is overwritten, neither the one nor the other, and then nothing is posted and nothing stays
    for (const auto& there : {file, sheet}) {
        CAPTURE(there);
        std::ofstream(there) << "mine";
        CHECK_THROWS_AS(post_transfer(c.ledger, draft(4), file, true, now, false, style), Error);
        CHECK_THROWS_AS(post_transfer(c.ledger, draft(4), file, true, now, true, style), Error);
        CHECK(content(there) == "mine");
        CHECK(last_of(c) == before);
        std::filesystem::remove(there);
        CHECK_FALSE(std::filesystem::exists(file));
        CHECK_FALSE(std::filesystem::exists(sheet));
    }
    // a link that leads nowhere is there, too
    std::filesystem::create_symlink(folder / "nowhere", file);
    CHECK_THROWS_AS(post_transfer(c.ledger, draft(4), file, true, now, false, style), Error);
    CHECK_FALSE(std::filesystem::exists(folder / "nowhere"));
    std::filesystem::remove(file);
    // more doses than there are: refused, and no file
    CHECK_THROWS_AS(post_transfer(c.ledger, draft(11), file, true, now, false, style), Error);
    CHECK_FALSE(std::filesystem::exists(file));

    const auto posted = post_transfer(c.ledger, draft(4), file, true, now, false, style);
    CHECK(posted.handover.transfer == before + 1);
    CHECK(last_of(c) == before + 1);
    CHECK(content(file) == handover_file(c.ledger.handover(before + 1, {}, now)));
    CHECK(content(sheet) == to_table(c.ledger.handover(before + 1, {}, now), style));
    CHECK(json::parse(to_json(posted))["files"] == json({file, sheet}));
    // without a name none is written where it was not asked for, and that is said, with what writes it
    const auto warned = [](const PostedTransfer& p, const std::string& part) {
        return coldtally::tests::says(p.posted.what.warnings, part);
    };
    CHECK_FALSE(warned(posted, "NO HANDOVER"));
    const auto would = post_transfer(c.ledger, draft(4), std::nullopt, false, now, true, style);
    CHECK(warned(would, "NO HANDOVER WOULD BE WRITTEN"));
    const auto without = post_transfer(c.ledger, draft(4), std::nullopt, false, now, false, style);
    CHECK(without.files.empty());
    CHECK(warned(without, "NO HANDOVER IS WRITTEN, and these doses need one"));
    CHECK(warned(without, "written for entry " + std::to_string(without.handover.transfer)));
    // what is no transfer is refused before anything is done
    Drafted other = c.ledger.draft(R"({"kind":"count","by":"cd","lot":"A1","doses":2})", now);
    CHECK_THROWS_AS(post_transfer(c.ledger, other, std::nullopt, false, now, false, style), Error);
    CHECK_THROWS_AS(post_transfer(c.ledger, Drafted(), std::nullopt, false, now, false, style), Error);
    CHECK(last_of(c) == without.handover.transfer);
}

TEST_CASE("a file without a name has one of its own, by lot and local time", "[handover]") {
    Transfer t;
    t.lot = "K/01 23";
    CHECK(handover_file_name(t, at("2026-03-02T15:22:00Z"), Zone("America/Chicago")) ==
          "handover-K_01_23-2026-03-02-0922.json");
    t.lot = "A-1";
    CHECK(handover_file_name(t, at("2026-03-02T15:22:07Z"), Zone("UTC")) == "handover-A-1-2026-03-02-152207.json");
}
