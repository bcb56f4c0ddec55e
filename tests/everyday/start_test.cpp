// A clinic that describes itself in a file: what of it is understood, what is refused and how, and that the entries are
// those of the single commands. All data invented.
#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>
#include <sstream>

#include "coldtally/work.hpp"
#include "said.hpp"
#include "start/cells.hpp"
#include "start/tables.hpp"
#include "temporary.hpp"

using namespace coldtally;
using namespace coldtally::tests;

namespace {

const Zone chicago("America/Chicago");
Instant local(const char* text) { return parse_instant(text, chicago); }
const Instant now = local("2026-11-27T10:00:00");

struct Clinic {
    ::tests::TemporaryFile file;
    Ledger ledger{file.path(), Ledger::Mode::create};

    StartDone start(const std::string& text, Meant meant = {}, Instant when = now) {
        return Work(ledger, when).start({"clinic.csv", text, "ab", std::nullopt}, meant);
    }
    /// Single commands, each as JSON without its kind's `by`.
    void work(const std::string& fields, Instant when = now) {
        const std::string json = R"({"by":"ab",)" + fields + "}";
        Work w(ledger, when);
        const bool event = fields.find(R"("kind":"receive")") != fields.npos ||
                           fields.find(R"("kind":"training")") != fields.npos ||
                           fields.find(R"("kind":"plan")") != fields.npos ||
                           fields.find(R"("kind":"rules")") != fields.npos;
        if (event)
            w.post(json, {});
        else
            w.define(json, {});
    }
    std::vector<std::string> entries() const {
        std::vector<std::string> out;
        ledger.for_each_entry([&](const Entry& e) { out.push_back(to_json(e)); });
        return out;
    }
    bool exists() const { return std::filesystem::exists(file.path()); }
};

const std::string begin = "[site]\nname,Mill Lane (invented)\nzone,America/Chicago\n";
const std::string places =
    "[places]\nplace,name,type,low,high\nmain,Main,refrigerator,2C/36F,8C/46F\nbox,Box,transport container,2C/36F,"
    "8C/46F\n";
const std::string products = "[products]\nproduct,name,low,high,doses per vial\nelm,Elm,2C/36F,8C/46F,1\n";
const std::string lots = "[lots]\nproduct,lot,expiry,place,doses\nelm,K1,2027-05,main,40\n";

/// "line 4 places type: ..." of each.
std::vector<std::string> mistakes(const StartDone& done) {
    std::vector<std::string> out;
    for (const auto& m : done.draft.mistakes) {
        const std::string where = std::to_string(m.line) + " " + m.table + " " + m.column;
        out.push_back(where + " <" + m.value + "> " + m.text);
    }
    return out;
}

std::string said(const std::function<void()>& what) {
    try {
        what();
    } catch (const Error& e) {
        return e.what();
    }
    return {};
}

}  // namespace

TEST_CASE("a file makes the entries that the single commands make", "[start]") {
    Clinic file, single;
    const StartDone done = file.start(
        begin + places + "[probes]\nprobe,scale,serial,place\np1,C,INV-1,main\n" +
        "[certificates]\nprobe,expires,tolerance,corrections\np1,2028-09-14,0.5,0=0.2 5=0.1\n" +
        "[makers]\nmaker,phone\nWorks (invented),555-0102\n" +
        "[products]\nproduct,name,low,high,freeze limit,doses per vial,maker\n"
        "elm,Elm,2C/36F,8C/46F,-0.4C/31.3F,10,works (invented)\n" +
        "[allowances]\nproduct,low,high,time,source\nelm,8C/46F,23C,29 h,leaflet (invented)\n" +
        "[after opening]\nproduct,event,time\nelm,first puncture,19 days\n" +
        "[lots]\nproduct,lot,expiry,place,doses,fund\nelm,K1,2027-05,main,40,state\n" +
        "[trained]\nperson,topic,due\nA. Person,storage,2027-09-01\n" +
        "[people]\nname,role,mobile,alternate\nA. Person,coordinator,555-0103,\nB. Person,nurse,,yes\n" +
        "[rules]\nprogramme,Tern County (invented)\nsource,handbook\ndated,2025-11-01\nlongest trip,7 h\n" +
        "[report when]\nrule,form,temperature,limit,at least,places\nwarm,run,above,9C/48F,1 h,refrigerator\n" +
        "[due]\nstep,within,if reportable\nsupervisor told,1 h,no\n" + "[keep]\nrecords,years\nlogs,4\n" +
        "[checks]\nplaces,days,per day,by,min max\nrefrigerator,Mon Tue,2,09:00 4:30PM,yes\n" +
        "[every]\nwhat,days\nplan review,365\n");
    CHECK(mistakes(done).empty());
    CHECK_FALSE(done.dry_run);

    const std::string range = R"J("range":{"low":{"C":"2","F":"36"},"high":{"C":"8","F":"46"}})J";
    single.work(R"J("kind":"site","name":"Mill Lane (invented)","zone":"America/Chicago")J");
    single.work(R"J("kind":"place","place":"main","name":"Main","type":"refrigerator",)J" + range);
    single.work(R"J("kind":"place","place":"box","name":"Box","type":"transport container",)J" + range);
    single.work(R"J("kind":"product","product":"elm","name":"Elm","freeze_limit":{"C":"-0.4","F":"31.3"},)J"
                R"J("doses_per_vial":10,"beyond_use":{"first puncture":1641600},"allowances":[{"band":)J"
                R"J({"low":{"C":"8","F":"46"},"high":{"C":"23"}},"seconds":104400,"source":"leaflet (invented)"}],)J" +
                range);
    single.work(R"J("kind":"maker","product":"elm","name":"works (invented)","phone":"555-0102")J");
    single.work(R"J("kind":"probe","probe":"p1","scale":"C","serial":"INV-1")J");
    single.work(R"J("kind":"assign","probe":"p1","place":"main")J");
    single.work(R"J("kind":"certificate","probe":"p1","expires":"2028-09-14","tolerance":"0.5",)J"
                R"J("correction":[["0","0.2"],["5","0.1"]])J");
    single.work(R"J("kind":"receive","product":"elm","lot":"K1","expiry":"2027-05","place":"main","doses":40,)J"
                R"J("fund":"state")J");
    single.work(R"J("kind":"training","person":"A. Person","topic":"storage","due":"2027-09-01")J");
    single.work(R"J("kind":"plan","people":[{"name":"A. Person","role":"coordinator","mobile":"555-0103"},)J"
                R"J({"name":"B. Person","role":"nurse","alternate":true}])J");
    single.work(R"J("kind":"rules","programme":"Tern County (invented)","source":"handbook","dated":"2025-11-01",)J"
                R"J("longest_trip_s":25200,"report":[{"rule":"warm","form":"run","temperature":{"is":"above",)J"
                R"J("limit":{"C":"9","F":"48"}},"at_least_s":3600,"places":["refrigerator"]}],)J"
                R"J("duties":[{"step":"supervisor told","within_s":3600}],"retention":[{"records":"logs","years":4}],)J"
                R"J("checks":[{"places":["refrigerator"],"weekdays":["Monday","Tuesday"],"per_day":2,)J"
                R"J("by":["09:00","16:30"],"min_max":true}],"every_days":{"plan review":365})J");
    CHECK(file.entries() == single.entries());
}

TEST_CASE("all mistakes of a file are said together, each with its place, and nothing is written", "[start]") {
    Clinic c;
    const StartDone done = c.start(
        "[site]\nname,Mill Lane (invented)\nzone,America/Chcago\nnmae,x\n"                       // 1-4
        "[places]\nplace,name,type,low,high\nmain,Main,fridge,2,8C/46F\nmain,Again,freezr,,-15C\n"  // 5-8
        "[prodcts]\nx\n[products]\nproduct,name,low,high,colour\nelm,Elm,2C,8C,red\n"            // 9-13
        "[lots]\nproduct,lot,expiry,place,doses\nelm,1.2E+11,May-27,main,\"1,000\"\nelm,K1,13/2027,main,4,9\n"  // 14-17
        "elm,K\"1,2027-05,main,4\n#elm,K2,2027-05,main,4\n");                                    // 18, 19
    const auto all = mistakes(done);
    const auto has = [&](const std::string& where, const std::string& part) {
        INFO(where << part);
        CHECK(std::ranges::any_of(
            all, [&](const auto& one) { return one.starts_with(where) && one.find(part) != one.npos; }));
    };
    has("3 site zone <America/Chcago> ", "did you mean America/Chicago?");
    has("4 site nmae <> ", "is no part of it; its parts are name, zone,");
    has("7 places type <fridge> ", "did you mean refrigerator?");
    has("7 places low <2> ", "must be a temperature with its scale: 2C, 36F, or both: 2C/36F");
    has("8 places type <freezr> ", "did you mean freezer?");
    has("8 places place <main> ", "line 7 defines it already");
    has("9   <prodcts> ", "did you mean products?");
    has("12 products colour <> ", "is no column of this table");
    has("16 lots lot <1.2E+11> ", "what a spreadsheet made of it");
    has("16 lots expiry <May-27> ", "write 2027-05-31");
    has("16 lots doses <1,000> ", "must be a whole number");
    has("17 lots  <9> ", "stands in no column");
    has("17 lots expiry <13/2027> ", "");
    has("18 lots  <elm,K\"1,2027-05,main,4> ", "a quotation mark stands alone");
    has("19 lots product <#elm> ", "what a spreadsheet shows for an error");
    CHECK(std::ranges::is_sorted(done.draft.mistakes, {}, &StartMistake::line));
    CHECK_FALSE(c.exists());
    const std::string text = said([&] { require_taken(done); });
    CHECK(text.find("line 7, [places], type: \"fridge\": must be refrigerator, freezer,") != text.npos);
    CHECK(text.find("NOT WRITTEN") != text.npos);
}

TEST_CASE("a row that single commands would refuse is a mistake of its line", "[start]") {
    Clinic c;
    const StartDone done = c.start(begin + "[places]\nplace,name,type,low,high,note\n"                 // 4, 5
                                           "main,Main,refrigerator,2C/36F,18C/64F,\n"                  // 6
                                           "annex,Annex,refrigerator,2C/36F,18C/64F,a wine cabinet\n"  // 7
                                   + products                                                          // 8-10
                                   + "[lots]\nproduct,lot,expiry,place,doses\n"                        // 11, 12
                                     "elm,K1,2027-05,main,40\n"                                        // 13: needs main
                                     "elm,K2,,annex,40\n"                                              // 14
                                     "oak,K3,2027-05,annex,40\n"                                       // 15
                                     "elm,K4,2027-05,anex,40\n");                                      // 16
    const auto all = mistakes(done);
    REQUIRE(all.size() == 4);
    CHECK(all[0].starts_with("6 places note <> must say why:"));
    CHECK(all[1].starts_with("14 lots lot <K2> "));
    CHECK(all[2].starts_with("15 lots product <oak> "));
    CHECK(all[3].starts_with("16 lots place <anex> "));
    CHECK(done.draft.not_looked_at == 1);
    CHECK_FALSE(c.exists());
}

TEST_CASE("a new ledger needs its site, and a file something to say", "[start]") {
    Clinic c;
    CHECK(mistakes(c.start(places)) ==
          std::vector<std::string>{"0 site  <> is missing: a new ledger begins with the clinic's name and zone"});
    const StartDone none = c.start("# nothing but a comment\n");
    CHECK(said([&] { require_taken(none); }).find("clinic.csv") != std::string::npos);
    for (const char* bytes : {"PK\x03\x04rest of a spreadsheet", "", "\xFF\xFE\x41"})
        CHECK(said([&] { c.start(bytes); }).starts_with("clinic.csv: "));
    CHECK(said([&] { Work(c.ledger, now).start({"clinic.csv", begin, "", {}}, {}); }).starts_with("by: "));
    CHECK_FALSE(c.exists());
}

TEST_CASE("a dry run writes nothing and says the same", "[start]") {
    Clinic c;
    const StartDone dry = c.start(begin + places + products + lots, {.yes = false, .dry_run = true});
    CHECK(dry.dry_run);
    CHECK_FALSE(c.exists());
    const StartDone done = c.start(begin + places + products + lots);
    CHECK(english().say(done.draft.missing) == english().say(dry.draft.missing));
    CHECK(has_code(done.draft.missing, "start-no-rules"));
    CHECK(has_code(done.draft.missing, "start-no-plan"));
    CHECK(has_code(done.draft.missing, "start-no-probe-in"));
    REQUIRE(done.draft.stock.size() == 1);
    CHECK(done.draft.stock[0].doses == Doses(40));
    CHECK(done.draft.stock[0].first_expiry == Date{2027, 5, 31});
    CHECK(c.ledger.stock({}, now).holdings.size() == 1);
}

TEST_CASE("a file that is given again changes nothing without a word", "[start]") {
    Clinic c;
    const std::string all = begin + places + products + lots;
    c.start(all);
    const auto before = c.entries();
    const StartDone again = c.start(all, {}, now + Duration(60));
    CHECK(to_table(again, {.zone = chicago}).find("STOCK: ") != std::string::npos);
    CHECK(again.draft.unchanged == 4);  // the site, two places, the product
    REQUIRE(again.asks.size() == 1);
    CHECK(again.asks[0].code() == "start-stock-twice");
    CHECK(english().say(again.asks[0]).find("has 40 doses already, and gets 40 more") != std::string::npos);
    CHECK(c.entries() == before);
    CHECK_FALSE(said([&] { require_taken(again); }).empty());
    c.start(all, {.yes = true}, now + Duration(120));
    CHECK(c.entries().size() == before.size() + 1);

    SECTION("nor does one of definitions alone") {
        const StartDone none = c.start(begin + places, {}, now + Duration(180));
        CHECK(none.draft.drafted.entries.empty());
        CHECK(none.draft.unchanged == 3);
        CHECK_NOTHROW(require_taken(none));
    }
    SECTION("twice in one file is asked about, too") {
        const StartDone twice =
            c.start("product,lot,expiry,place,doses\nelm,K9,2027-05,main,4\nelm,K9,2027-05,main,6\n", {},
                    now + Duration(180));
        REQUIRE(twice.asks.size() == 1);
        CHECK(english().say(twice.asks[0]).find("(line 3)") != std::string::npos);
    }
}

TEST_CASE("certificates, places of probes, training, plan and rules that hold so are left out", "[start]") {
    Clinic c;
    const std::string papers =
        "[probes]\nprobe,scale,place\np1,C,main\n[certificates]\nprobe,expires\np1,2028-09-14\n"
        "[trained]\nperson,topic\nA. Person,storage\n[people]\nname,role\nA. Person,coordinator\n"
        "[rules]\nprogramme,P\nsource,handbook\ndated,2025-11-01\n";
    c.start(begin + places + papers);
    const StartDone again = c.start(papers, {}, now + Duration(60));
    CHECK(again.draft.drafted.entries.empty());
    CHECK(again.draft.unchanged == 6);
}

TEST_CASE("what a definition of a file loosens is asked about as of single ones", "[start]") {
    Clinic c;
    c.start(begin + places + products + lots);
    const std::string wider = "[products]\nproduct,name,low,high\nelm,Elm,2C/36F,9C/48F\n";
    const StartDone asked = c.start(wider, {}, now + Duration(60));
    REQUIRE_FALSE(asked.asks.empty());
    CHECK(asked.asks[0].code() == "looser-than-before");
    const DefinitionDraft single = definition_draft(
        c.ledger,
        R"({"by":"ab","kind":"product","product":"elm","range":{"low":{"C":"2","F":"36"},"high":{"C":"9","F":"48"}}})",
        now + Duration(60));
    CHECK(english().say(asked.asks) == english().say(single.loosens));
    CHECK(c.entries().size() == 6);
    c.start(wider, {.yes = true}, now + Duration(60));
    CHECK(c.entries().size() == 7);
}

TEST_CASE("warnings are those of the single commands, once for all their lines", "[start]") {
    Clinic c;
    c.start(begin + places + products);
    const StartDone done =
        c.start("product,lot,expiry,place,doses\nelm,O1,2026-10-31,main,4\nelm,01,2026-10,main,5\n", {.dry_run = true});
    std::vector<std::string> said;
    for (const auto& w : done.draft.warnings) said.push_back(english().say(w.text));
    CHECK(says(said, "has expired"));
    CHECK(says(said, "\"O1\""));  // the twin of 01
    const Drafted single =
        c.ledger.draft(R"({"kind":"receive","by":"ab","product":"elm","lot":"O1","expiry":"2026-10-31",)"
                       R"("place":"main","doses":4})",
                       now);
    for (const auto& one : english().say(single.warnings)) CHECK(says(said, one));
}

TEST_CASE("opening stock is a spreadsheet of lots, whatever parts its cells", "[start]") {
    for (const char* text : {"Product;Lot number;Expiration date;Location;Qty\nelm;K1;05/31/2027;main;40\n",
                             "lot\tproduct\texpiry\tdoses\tplace\nK1\telm\t2027-05-31\t40\tmain\n",
                             "\xEF\xBB\xBFproduct,lot,expiry,place,doses,,\r\n\"elm\",K1,5/31/2027,main,40,,\r\n"
                             ",,,,,,\r\n"}) {
        INFO(text);
        Clinic c;
        c.start(begin + places + products);
        const StartDone done = c.start(text, {}, now + Duration(60));
        CHECK(mistakes(done).empty());
        const auto rows = c.ledger.stock({}, now + Duration(60)).holdings;
        REQUIRE(rows.size() == 1);
        CHECK(rows[0].doses == Doses(40));
    }
    SECTION("UTF-16, as a spreadsheet's \"Unicode text\"") {
        Clinic c;
        c.start(begin + places + products);
        std::string wide = "\xFF\xFE";
        for (const char ch : std::string("product\tlot\texpiry\tplace\tdoses\nelm\tK1\t2027-05-31\tmain\t40\n")) {
            wide += ch;
            wide += '\0';
        }
        CHECK(mistakes(c.start(wide, {}, now + Duration(60))).empty());
    }
    SECTION("funds are stated of all or of none") {
        Clinic c;
        c.start(begin + places + products);
        const auto all = mistakes(c.start(
            "product,lot,expiry,place,doses,fund\nelm,K1,2027-05,main,4,state\nelm,K2,2027-05,main,4,\n"
            "elm,K3,2027-05,main,4,-\n"));
        REQUIRE(all.size() == 1);
        CHECK(all[0].starts_with("3 lots fund <> must be stated"));
    }
    SECTION("a date of two readings is asked about") {
        Clinic c;
        c.start("[site]\nname,Mill Lane (invented)\nzone,Europe/Zurich\n" + places + products);
        const auto all = mistakes(c.start("product,lot,expiry,place,doses\nelm,K1,02/03/2028,main,4\n"));
        REQUIRE(all.size() == 1);
        CHECK(all[0].starts_with("2 lots expiry <02/03/2028> "));
    }
}

TEST_CASE("of many lots that are there already it is said how many, and where they stand", "[start]") {
    Clinic c;
    c.start(begin + places + products);
    std::string text = "product,lot,expiry,place,doses\n";
    for (int i = 1; i <= 9; ++i) text += "elm,K" + std::to_string(i) + ",2028-05,main,10\n";
    c.start(text);
    const StartDone again = c.start(text, {.dry_run = true}, now + Duration(60));
    REQUIRE(again.draft.asks.size() == 1);
    CHECK(english().say(again.draft.asks[0])
              .starts_with("STOCK: 9 holdings have doses already, and get 90 doses more (lines 2, 3, 4, 5, 6, 7, 8, 9, "
                           "10): "));
    CHECK(to_table(again, {.zone = chicago}).find("STOCK: 9 holdings") != std::string::npos);
}

TEST_CASE("opening stock of 300 lots is one batch", "[start]") {
    Clinic c;
    c.start(begin + places + products);
    std::string text = "product,lot,expiry,place,doses,fund\n";
    for (int i = 0; i < 300; ++i)
        text += "elm,K" + std::to_string(1000 + i) + ",2028-05,main," + std::to_string(i + 1) + ",state\n";
    const StartDone done = c.start(text, {}, now + Duration(60));
    CHECK(mistakes(done).empty());
    CHECK(done.draft.drafted.entries.size() == 600);
    REQUIRE(done.draft.stock.size() == 1);
    CHECK(done.draft.stock[0].lots == 300);
    CHECK(done.draft.stock[0].doses == Doses(300 * 301 / 2));
}

TEST_CASE("parts of the plan that a file has no row of are kept", "[start]") {
    Clinic c;
    c.start(begin + "[people]\nname,role,mobile\nA. Person,coordinator,555-0103\n");
    const StartDone done =
        c.start("[services]\nwhat,phone\npower company,555-0106\n[plan]\nsteps,\"doors shut, call\"\n", {},
                now + Duration(60));
    CHECK(mistakes(done).empty());
    const Plan plan = c.ledger.plan({}, now + Duration(60)).plan;
    REQUIRE(plan.people.size() == 1);
    CHECK(plan.people[0].name == "A. Person");
    CHECK(plan.services.size() == 1);
    CHECK(plan.steps == "doors shut, call");
    REQUIRE_FALSE(done.draft.filled.empty());
    CHECK(english().say(done.draft.filled[0].text).find("kept as it was") != std::string::npos);
}

TEST_CASE("rules without their source are refused, and each condition by its form", "[start]") {
    Clinic c;
    c.start(begin + places);
    const auto all = mistakes(c.start(
        "[rules]\nprogramme,Tern County (invented)\n[report when]\nrule,form,temperature,at least,more than,within\n"
        "a,run,,,,\nb,sum,above,1 h,2 h,\nc,patern,,3,,\nd,pattern,,3,,14 days\n[checks]\ndays,per day,by\nMonday,two,"
        "25:00\n[due]\nstep,within\nsupervisor,soon\n"));
    const auto has = [&](const std::string& start) {
        INFO(start);
        CHECK(std::ranges::any_of(all, [&](const auto& one) { return one.starts_with(start); }));
    };
    has("1 rules source <> must be stated");
    has("1 rules dated <> must be stated");
    has("5 report when temperature <> must be stated of a run");
    has("5 report when at least <> must be stated, or more than");
    has("6 report when within <> must be stated of a sum");
    has("6 report when at least <1 h> must be stated, or more than, and not both");
    has("7 report when form <patern> must be run, sum, reading or pattern; did you mean pattern?");
    has("11 checks per day <two> ");
    has("11 checks by <25:00> ");
    has("14 due step <supervisor> ");
    has("14 due within <soon> ");
}

TEST_CASE("templates are read back: empty, they state nothing; their examples are right", "[start]") {
    for (const auto which :
         {StartTemplate::clinic, StartTemplate::lots, StartTemplate::plan, StartTemplate::rules}) {
        CAPTURE(start_template_name(which));
        CHECK(start_template_of(start_template_name(which)) == which);
        const std::string text = start_template(which);
        Clinic c;
        c.start(begin + places + products);
        const StartDone empty = c.start(text);
        CHECK(mistakes(empty).empty());
        CHECK(empty.draft.drafted.entries.empty());
        CHECK(empty.draft.unchanged == 0);

        // the examples, as somebody would fill them in
        std::istringstream lines(text);
        std::string filled, line;
        while (std::getline(lines, line)) {
            const bool is_title = line.starts_with('[');
            for (const auto& t : start::tables())
                for (const auto& column : t.columns)
                    if (line.starts_with("# " + std::string(column.example)) && !column.example.empty() &&
                        &column == t.columns.data() && !t.parts)
                        line.erase(0, 2);
            for (const auto& t : start::tables())
                for (const auto& column : t.columns)
                    if (t.parts && line.starts_with("# " + std::string(column.name) + ",")) line.erase(0, 2);
            const bool empty_part = line.ends_with(',') && line.find(',') + 1 == line.size() && !is_title;
            if (!empty_part) filled += line + "\n";
        }
        Clinic other;
        if (which == StartTemplate::lots) other.start(begin + places + products);
        if (which != StartTemplate::clinic && which != StartTemplate::lots) other.start(begin);
        const StartDone done = other.start(filled);
        CHECK(mistakes(done) == std::vector<std::string>{});
        CHECK_FALSE(done.draft.drafted.entries.empty());
    }
    CHECK(said([] { start_template_of("plam"); }).find("did you mean plan?") != std::string::npos);
}

TEST_CASE("cells are read as people and spreadsheets write them", "[start]") {
    using namespace coldtally::start;
    CHECK(limit_cell("2C/36F") == Json{{"C", "2"}, {"F", "36"}});
    CHECK(limit_cell("2 \xC2\xB0" "C / 36 \xC2\xB0" "F") == Json{{"C", "2"}, {"F", "36"}});
    CHECK(limit_cell("\xE2\x88\x92" "50C") == Json{{"C", "-50"}});
    CHECK(limit_cell("2,5C") == Json{{"C", "2.5"}});
    for (const char* bad : {"2", "2C/3C", "C", "2K", "2C 36F", "", "warm"}) {
        INFO(bad);
        CHECK_THROWS_AS(limit_cell(bad), Error);
    }
    CHECK(duration_cell("28 days") == Json(2419200));
    CHECK(expiry_cell("5/2027", chicago, now) == Json("2027-05"));
    CHECK(expiry_cell("2027-5", chicago, now) == Json("2027-05"));
    CHECK(expiry_cell("5/31/2027", chicago, now) == Json("2027-05-31"));
    for (const char* bad : {"13/2027", "May-27", "31", "2027-02-30"}) {
        INFO(bad);
        CHECK_THROWS_AS(expiry_cell(bad, chicago, now), Error);
    }
    CHECK(place_type_cell("Ultra Cold Freezer") == Json("ultra-cold freezer"));
    CHECK(yes_cell("X") == Json(true));
    CHECK(yes_cell("No") == Json(false));
    CHECK_THROWS_AS(yes_cell("maybe"), Error);
    CHECK(instant_cell("2026-11-20", chicago, now) == Json("2026-11-20T06:00:00Z"));  // midnight there, UTC-6
}
