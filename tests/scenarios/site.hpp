// Site: scenarios as tables that can be read and worked by hand. One row an event or a question, its answer last.
//
//   08:00  receive main flu A1 10
//   08:00  log p 600  7 11                  # 7 to 11 in 600 s: past 8 after 150 s, then 450 s above it
//   08:10  ? warm main flu A1               = 0 450 600, 675 Cs, open 450
//   08:10  ! waste main flu A1 11           = not-enough: doses
//
// A row is: time, then an event, a question (?) or an event that is refused (!), then `=` and what is expected; further
// lines of an answer stand in rows of their own that begin with `=`. `#` begins a comment. A row that ends in ` \` (a
// comment may follow) goes on in the next line, whose leading blanks do not count.
//
// Times are UTC of 2026-03-02 unless they say more: 08:00, 08:00:30, 03-04T08:00, 2027-01-01T00:00. A limit is in °C,
// in °F (46F) or in both (8C/46F); `-` leaves a side of a range out. A place with a mark is main:bag, with an empty
// mark that is meant main: (events that match, `in`: main, main:bag, :bag, or : for the unmarked doses).
//
// Events (optional words in brackets; each may end in `fund F` where the kind has one, in `at TIME` where it is noted
// later than it was, and in `as NAME`, by which other rows, and answers, call the entry):
//   site [zone Z] [unmonitored S] [stale S]
//   product P LOW HIGH [freeze T] [allow LOW HIGH S]... [event NAME S]... [vial N]           maker P NAME
//   lot P L DATE  probe P C|F               place PLACE LOW HIGH [type T] [gap S] [checkgap S] [near S|usual]
//   certificate P DATE [tolerance U] [correct INDICATED:CORRECTION]...
//   assign P PLACE|-                        log P STEP T|- T|- ...  (a reading each STEP seconds from the time on; -
//                                                                    for none)
//   check PLACE T [min T max T] [probe P]   (50F: in °F)
//   receive PLACE P L N [handover {...}]    (what the JSON leaves out is 0, empty or null)
//   move P L N PLACE > PLACE                give PLACE P L N TOKEN [uncertain]
//   waste|return|transfer|count PLACE P L N
//   beyond-use PLACE P L NAME | until TIME|DATE
//   hold P [lot L] [in WHERE]               guidance P L use|discard|use-by DATE [through TIME] [in WHERE] [since TIME]
//                                             [told OUT UNKNOWN POINTS] (- for one that is not stated)
//   void NAME                               json {...} (an entry as it is)
//   rules [warm S] [told WHO S]... [answer S] [every WHAT DAYS]... [loans DAYS] [checks TIME,TIME]
//                                             (warm: reportable is so long a run above the place's range)
//   loan GIVE FUND REASON  repayment LOAN N [with ENTRY]  follow-up GIVE STEP  training WHO TOPIC [due DATE]
//   plan NAME...                              (who is to be called)
//   recorded                                (no entry: from here on, entries are recorded at this time; before, at
//                                             07-01T00:00)
//   clock                                   (no entry: each row from here on is posted, and asked, at its own time)
//
// Everyday work, where a row goes through what the command line and Python go through (words of several parts with -;
// an incident is known as 2026-1, 2026-2 ...; `as` names the step, the give, the report, the first guidance):
//   do KIND FIELD VALUE ... [meant]         (a draft, made whole and posted; what it would loosen is meant)
//   notice PLACE [since TIME] [unheld WHY]  step INCIDENT STEP [in PLACE] [told ENTRY]
//   close INCIDENT [release] [despite WHY]  report INCIDENT to WHO NAME [uncounted]
//   answer REPORT P L use|discard|use-by DATE [note WHY]
//
// Questions (H: PLACE P L [fund F]); `known TIME` before one asks it as known on that time:
//   stock [H] | accounts | lists [H] | notes H
//   history H | warm H | cold H | frozen H | allowances H | beyond H | points H | coverage H | extremes H | places H
//     | condemned H | held H | use-by H
//   review [all] | given TOKEN WORD (a word of the line above, for the history at the give)
//   excursions PLACE FROM UNTIL | inside PLACE FROM UNTIL (and who was there) | marks PLACE FROM UNTIL (without
//     particulars)
//   conditions PLACE FROM UNTIL | explain H
//   makes|fills|warns|asks|then KIND FIELD VALUE ... (a draft: its entries, what it fills in, what it warns of, what it
//     would loosen, what to do next)
//   incidents | doubts | unlisted (what a review says besides) | concerns REPORT P L VERDICT
//   incident ID doubt|doses|given|left|figures|duties|conditions|answers|release|open
//   ready TOPIC [from TIME] | not-judged | follow-up [P L] | standing [P L] | left [P L] | loans [all]
// `...` in an answer stands for any text.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace scenarios {

struct Row {
    std::string text;      ///< as it stands in the table
    std::string expected;  ///< empty: an event
    std::string answer;
};

/// What became of each row with an expectation. Every table begins with the standard site: zone UTC; product flu, 2 to
/// 8 °C (36 to 46 °F), no freeze limit, no allowance; its lots A1 and B2, through 2026-12-31; refrigerators main and
/// spare, of the same range; counter, of 15 to 25 °C (59 to 77 °F); probes p in main, q in spare, r on the counter, all
/// in °C, since 2026-01-01; probe f, °F. Nothing is near in a place whose row does not say `near`, so that the tables
/// of other rules can be worked without it. std::invalid_argument for a row that cannot be read.
std::vector<Row> run(std::string_view table);

/// Runs the table and checks every row; a failure shows the table. The table has at least one row with an expectation.
void scenario(std::string_view table);

}  // namespace scenarios
