/* reason.c: rules and sources, see reason.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A source is named as the code that follows the rule names it, "from memory" where it was not read.
 * ISO and OIML are named with their numbers, JCGM 100 is the guide to the expression of uncertainty (GUM).
 */
#include "reason.h"

#include <math.h>

#include "number.h"
#include "review-private.h"

#define OWN "A rule of this program"
#define PRACTICE "Common practice, no published source"
#define STATICS "Statics of a beam on two supports, any textbook"
#define LIMIT_SOURCE                                                                               \
  "JCGM 100:2008, 5.1.2, G.4.1 and table G.2, for the limit. How seldom it alarms in vain is a "   \
  "rule of "                                                                                       \
  "this program"

static const struct
{
  const char *rule;
  const char *source;
} reasons[TG_N_REASONS] = {
  /* -- findings ------------------------------------------------------------------------------- */
  [TG_REASON_TURN] = { "Both ways up of an end have to weigh the same. Their difference is held "
                       "against what this scale explains, and never alarms below one step of it.",
                       LIMIT_SOURCE
                       ". That a bearing which catches shows in the two ways up: common "
                       "practice, no published source" },
  [TG_REASON_CLOSURE] = { "A rod on two supports: both ends together carry the whole of it. What "
                          "they differ from the whole by is held against what this scale "
                          "explains.",
                          STATICS ". " LIMIT_SOURCE },
  [TG_REASON_TOO_LIGHT] = { "Metal only comes off: a part that is read below the lower edge of "
                            "its band, or would be after what still has to come off, cannot come "
                            "back into it. A held target gives way by what the readings cannot "
                            "tell, a tenth of the tolerance at most.",
                            OWN },
  [TG_REASON_OUT_OF_REACH] = { "The plan that misses the bands by the least, with every zone "
                               "that may be used giving up to its limit, still misses them.",
                               OWN "; found by a linear programme" },
  [TG_REASON_FINE] = { "Amounts come in whole steps of the scale. Where no whole steps end "
                       "inside the bands they are given finer than the scale shows.",
                       OWN },
  [TG_REASON_TOLERANCE] = { "A tolerance below two steps of the scale is hardly told from the "
                            "step itself: each reading is rounded by up to half a step, and a "
                            "spread is the difference of two.",
                            OWN
                            "; that rounding errs by half a step at most: JCGM 100:2008, F.2.2.1" },
  [TG_REASON_OVER_CAPACITY] = { "A reading above the capacity of the scale, as the set-up says "
                                "it, is not to be trusted.",
                                "The plate or the manual of the scale" },
  [TG_REASON_ZONE_NEVER] = { "The design marks zones that carry load as zones where no metal is "
                             "taken off. A pass there is reported whatever it took.",
                             PRACTICE "; the manual of the part’s maker comes first" },
  [TG_REASON_ZONE_EXCEEDED] = { "A zone may give its area to its depth limit. What came off it "
                                "is held against that and what one reading of this scale "
                                "explains.",
                                LIMIT_SOURCE
                                ". The depth limit is that of the design; the maker’s manual "
                                "comes first" },
  [TG_REASON_KEPT] = { "A reading that leaves what was to be expected is questioned once. Kept, "
                       "it counts like every other and is marked.",
                       OWN },
  [TG_REASON_OUTLIER] = { "The reading farthest from the mean of its repeats is held against how "
                          "all other repeats of this scale scatter; the rate of false alarms is "
                          "shared among the readings. Less than one and a half steps never "
                          "alarms.",
                          "ASTM E178, extreme deviate with an independent standard deviation, "
                          "from memory; the level shared after Bonferroni" },
  [TG_REASON_OUTLIER_ALONE] = { "Where the other repeats tell too little of this scale, the "
                                "farthest reading is held against the scatter of its own "
                                "repeats. A value one step from its neighbour never alarms.",
                                "Grubbs’ test, NIST/SEMATECH e-Handbook of Statistical Methods, "
                                "1.3.5.17.1; the step is a rule of this program" },
  [TG_REASON_ZERO] = { "What the empty scale shows is held against where it was set to zero, a "
                       "quarter of a step, and the scatter of one look, together, as the last "
                       "step that is shown within that. In doubt beyond the 95 % point, off "
                       "beyond the 99 % point.",
                       "OIML R 76-1, 4.5.2, from memory, for the quarter of a step; JCGM "
                       "100:2008, 4.3.7 and table G.2" },
  [TG_REASON_CHECK_WEIGHT] = { "The reading less what is stamped on the weight is held against "
                               "two and three times the standard uncertainty of scale and weight "
                               "together, both rounded up to the next step.",
                               "OIML R 111-1:2004, table 1, for the error that the weight may "
                               "have; JCGM 100:2008, 4.3.7; warning and action limits of ISO "
                               "7870-2, from memory" },
  [TG_REASON_LEVER_MOVED] = { "Where a zone lies is learned from what its passes took off both "
                              "ends. It is reported when it is farther from the drawing than "
                              "twice the drawing’s standard uncertainty.",
                              "Weighted least squares, JCGM 100:2008, 5.1; statics of a beam on "
                              "two supports, any textbook. The limit is a rule of this program" },
  [TG_REASON_LEVER_ODD] = { "What the passes took off both ends fits one place of the zone, or "
                            "does not: the sum of the squared misfits (chi-square) is held "
                            "against what chance makes in 1 of 100 cases.",
                            "Chi-square test of a weighted least-squares fit, any textbook of "
                            "statistics; JCGM 100:2008, 5.1, for the weights. The limit is a "
                            "rule of this program" },

  /* -- states, bands, targets, proofs --------------------------------------------------------- */
  [TG_REASON_UNWEIGHED] = { "A part is judged when every figure that it is matched by has been "
                            "read: both ends of a rod, the weight of a piston.",
                            OWN },
  [TG_REASON_WAITING] = { "The target follows from the whole set: it is chosen when every part "
                          "has been weighed, with what goes with it.",
                          OWN },
  [TG_REASON_TO_GRIND] = { "A part above its band comes down to the band’s upper edge, since "
                           "that is where the least comes off.",
                           OWN "; found by a linear programme" },
  [TG_REASON_WEIGH_AGAIN] = { "Metal came off since the last reading. What is reckoned from the "
                              "pass counts for the plan, but nothing is called even that was not "
                              "read.",
                              OWN },
  [TG_REASON_EVEN] = { "Even: read inside its bands. Proven: the chance that the true weight is "
                       "inside is 95 % or more, or that of the whole set’s spread is.",
                       "JCGM 106:2012, 7.2 to 7.4, conformance probability, and 8.3, guard band; "
                       "95 % is a rule of this program" },
  [TG_REASON_ONLY_WEIGHED] = { "Only rods and pistons at a bore are ground. Others, and spares, "
                               "are weighed and counted.",
                               OWN },
  [TG_REASON_SPREAD] = { "The tolerance is the largest permitted spread, heaviest minus "
                         "lightest. Even: every part was read since its last pass and the "
                         "readings spread no more. Proven: the chance that the true weights "
                         "spread no more is 95 % or more.",
                         "JCGM 106:2012, 7.2 to 7.4, for the chance of conformance, taken over "
                         "the whole set; 95 % is a rule of this program" },
  [TG_REASON_TARGET_OPEN] = { "The target, the lower edge of the band, is chosen when every part "
                              "of its kind has been weighed.",
                              OWN },
  [TG_REASON_TARGET_CHOSEN] = { "Of all targets the one with which the whole set loses the least "
                                "metal; whole steps of the scale, of equal ones the highest. It "
                                "is chosen anew with each reading until the first pass.",
                                OWN "; found by a linear programme" },
  [TG_REASON_TARGET_DECIDED] = { "A target is held from the first pass on, or when a person "
                                 "decides it. It gives way to a part that reads less under it "
                                 "than its readings can tell, by a tenth of the tolerance at "
                                 "most.",
                                 OWN },
  [TG_REASON_PROOF_BEFORE] = { "Parts that all weigh the same show a spread by chance. The "
                               "narrowest spread that can be proven is the one that such "
                               "readings pass in 5 of 100 cases only, which is the most "
                               "favourable case.",
                               "Studentised range, any textbook of statistics; JCGM 100:2008, "
                               "4.2.3 and F.2.2.1, for the readings and the step. 95 % is a rule "
                               "of this program" },
  [TG_REASON_PROOF_AFTER] = { "Proven is a set whose true weights spread no more than the "
                              "tolerance with a chance of 95 % or more. More readings make each "
                              "mean better known, but not the step of the scale.",
                              "JCGM 106:2012, 7.2 to 7.4, for the chance of conformance, taken "
                              "over the whole set; 95 % is a rule of this program" },
  [TG_REASON_CHOICE] = { "A way out costs the metal that the whole set loses with it, less what "
                         "it loses by today’s plan. Ways that do not work are not offered; the "
                         "cheapest stands first.",
                         OWN "; found by a linear programme" },
  [TG_REASON_CHOICE_PIECE] = { "What this way out costs hangs on a weight that nobody knows yet, "
                               "so that it stands behind those whose cost is known.",
                               OWN },

  /* -- instructions --------------------------------------------------------------------------- */
  [TG_REASON_WEIGH] = { "First what was never read, then what a pass took, then what was read "
                        "least often: all small ends both ways up, all big ends, then what lies "
                        "on the scale as a whole, so that supports are set up once.",
                        PRACTICE },
  [TG_REASON_GRIND] = { "Least metal over the set; a gram off a zone takes the share d/L off the "
                        "small end and the rest off the big end, d from the big end, L from "
                        "centre to centre. A pass aims so far that a reading will prove it, but "
                        "takes too much with no more than the chance that is set.",
                        "The plan is a rule of this program, found by a linear programme; the "
                        "lever arms are statics of a rod on two supports, any textbook" },
  [TG_REASON_ZONE] = { "Least metal over the set, then the fewest zones; a gram off a zone takes "
                       "the share d/L off the small end and the rest off the big end, d from the "
                       "big end, L from centre to centre.",
                       "The plan is a rule of this program, found by a linear programme; the "
                       "lever arms are statics of a rod on two supports, any textbook" },
  [TG_REASON_DONE] = { "Nothing more comes off when every band is even: each part read since its "
                       "last pass, and heaviest minus lightest within the tolerance.",
                       OWN "; whether it is proven: JCGM 106:2012, 7.2 to 7.4" },
  [TG_REASON_PAIR] = { "Which part goes with which is asked for once everything is weighed and "
                       "nothing is ground: from then on a better pairing would waste what came "
                       "off.",
                       OWN },
  [TG_REASON_PAIRING] = { "The pairing after which the least metal comes off over all bores. It "
                          "is proved when no other can take less: by a bound, or by looking at "
                          "all of them.",
                          OWN "; the search is branch and bound, any textbook of combinatorial "
                              "optimisation" },
  [TG_REASON_SHELF] = { "Of all choices of as many parts as there are bores the one that loses "
                        "the least metal: each part comes down to the lightest one chosen plus "
                        "the tolerance, as far as its zones can give. Of a rod each end counts "
                        "by itself.",
                        OWN "; the search tries each part as the lightest" },
  [TG_REASON_SHELF_ALIKE] = { "Nothing comes off these parts, so the bores get those that "
                              "together exceed their lightest one by the least.",
                              OWN "; the search tries each part as the lightest" },
  [TG_REASON_CRANKPINS] = { "Two rods turn on one crankpin: all that sits at both bores, ground "
                            "as planned, is added up. Sets are moved whole, so that the heaviest "
                            "and the lightest crankpin differ least, with the fewest sets moved.",
                            OWN "; the search is branch and bound, any textbook of combinatorial "
                                "optimisation" },
  [TG_REASON_ODD] = { "The set is planned anew without each of its parts in turn, with free "
                      "targets. What the others lose less is what a fitting piece would save; a "
                      "piece fits that lies in the bands of that plan.",
                      OWN "; found by a linear programme" },

  /* -- questions ------------------------------------------------------------------------------ */
  [TG_REASON_NO_LOAD] = { "A part weighs more than nothing.", OWN },
  [TG_REASON_TOO_MUCH] = { "More than the capacity of the scale, as the set-up says it, cannot "
                           "be read.",
                           "The plate or the manual of the scale" },
  [TG_REASON_REPEAT] = { "The same figure, the same way up, was read since the last pass. A good "
                         "reading leaves the mean of those by more than the limit in 1 of 100 "
                         "cases; less than one and a half steps never asks.",
                         LIMIT_SOURCE },
  [TG_REASON_OTHER_WAY] = { "The other way up of the same end was read since the last pass. Both "
                            "have to weigh the same; they differ by more than the limit in 1 of "
                            "100 cases; less than one and a half steps never asks.",
                            LIMIT_SOURCE },
  [TG_REASON_AFTER_PASS] = { "After a pass a part is no heavier than before and no lighter than "
                             "a pass of what was wanted can leave it. A good reading leaves "
                             "these limits in 1 of 100 cases.",
                             LIMIT_SOURCE },
  [TG_REASON_OTHERS] = { "Parts of one design weigh much the same. A scatter of 2 % is taken "
                         "beforehand and bettered by the parts that were read.",
                         PRACTICE ", for the 2 %. " LIMIT_SOURCE },
  [TG_REASON_REST] = { "Small end and big end together carry the whole rod, so that two of the "
                       "three figures tell the third.",
                       STATICS ". " LIMIT_SOURCE },
  [TG_REASON_STEP] = { "A scale shows multiples of its step. A reading between two of them is a "
                       "slip, or the step in the set-up is not that of the scale.",
                       OWN },
  [TG_REASON_NOT_EMPTY] = { "A scale wanders by a few steps. Beyond 50 steps or 5 g, whichever "
                            "is less, but at least 2 steps, something seems to lie on it.",
                            PRACTICE },
  [TG_REASON_NOT_THE_WEIGHT] = { "A reading more than 5 % away from what is stamped on the check "
                                 "weight is that of another weight.",
                                 PRACTICE },

  /* -- the engine ----------------------------------------------------------------------------- */
  [TG_REASON_ENOUGH] = { "Parts anywhere in their bands, in the least lucky bores, may add no "
                         "more than the share that is set of what the layout makes by itself; "
                         "where it makes next to nothing, of what one piston makes.",
                         OWN "; the forces: kinematics of the crank drive, any textbook of machine "
                             "dynamics. What the maker allows comes first" },
  [TG_REASON_GRADE] = { "The permissible residual unbalance is the grade, in mm/s, times the "
                        "mass of the rotor over its angular speed. Half of it is allowed in each "
                        "of two planes.",
                        "ISO 21940-11" },
  [TG_REASON_FORCES] = { "Each mass times the acceleration of its place on the crank drive, "
                         "summed over all bores; ± holds the true figure in 95 of 100 cases.",
                         "Kinematics of the crank drive, any textbook of machine dynamics; JCGM "
                         "100:2008, 5.1.2, for ±, with the law of a sum of squares (Box 1954) "
                         "where a force is about nothing" },
  [TG_REASON_FACTOR] = { "A weight on the crankpin can undo the half of the first order that "
                         "turns with the crank, not the half that turns against it. The share is "
                         "taken that leaves the least force and couple.",
                         "First-order balance of the crank drive, any textbook of machine "
                         "dynamics. Which share a maker takes: common practice, no published "
                         "standard" },
  [TG_REASON_BOBWEIGHT] = { "Bobweight = rods × (big end + bearings) + oil + factor × rods × "
                            "(piston + pin + clips + rings + small end), with the weights of "
                            "each crankpin’s own parts.",
                            "Common practice, no published standard" },
  [TG_REASON_READY] = { "A bore is ready when a part of each family sits there, each proven "
                        "inside its bands, and neither ground, replaced nor weighed out of its "
                        "band since.",
                        OWN },
  [TG_REASON_TICK] = { "A tick counts for the parts that sat at the bore when it was made. It no "
                       "longer holds when one that it hangs on was swapped, replaced, ground or "
                       "weighed out of its band since, or when the card says another way round.",
                       OWN },
  [TG_REASON_TICK_PART] = { "A tick for a part in hand counts for that part: it is wrong when "
                            "another one belongs at this bore, and no longer holds when the part "
                            "was replaced, ground or weighed out of its band since.",
                            OWN },

  /* -- answers to the questions of a lesson ------------------------------------------------------ */
  [TG_REASON_ASK_EFFECT] = { "Moments about the bores: a rod on two supports is a beam. Metal "
                             "beyond an end counts there more than once, and the other end rises.",
                             STATICS },
  [TG_REASON_ASK_PISTON] = { "A piston is weighed whole: what comes off anywhere comes off its "
                             "weight.",
                             PRACTICE },
  [TG_REASON_ASK_MEAN] = { "Each way up counts half, so that what errs the other way round "
                           "cancels.",
                           PRACTICE },
  [TG_REASON_ASK_TURN] = { "A rod that lies well weighs the same both ways up; a bearing that "
                           "catches shows here.",
                           PRACTICE },
  [TG_REASON_ASK_CLOSURE] = { "The two ends carry the whole rod: forces on a beam add up.",
                              STATICS },
  [TG_REASON_ASK_SPREAD] = { "Tolerance and spread are always heaviest minus lightest.", PRACTICE },
  [TG_REASON_ASK_TARGET] = { "Metal only comes off, so the lightest part sets the target; the "
                             "others come down to target + tolerance.",
                             OWN "; found by a linear programme" },
  [TG_REASON_ASK_COME_OFF] = { "The plan takes the least metal that brings every figure into its "
                               "band, in whole steps of the scale; both ends of a rod are "
                               "planned together.",
                               "The plan is a rule of this program, found by a linear programme; "
                               "the lever arms are statics of a rod on two supports, any "
                               "textbook" },
  [TG_REASON_ASK_AT_MOST] = { "What is off stays off: a figure under its band costs metal on "
                              "every other part.",
                              OWN },
  [TG_REASON_ASK_DEPTH] = { "Mass is density times volume, and a skim of a flat pad is area "
                            "times depth.",
                            "Density of a body, any textbook of physics" },
  [TG_REASON_ASK_PROOF] = { "A spread is proven when readings leave no more than 5 of 100 "
                            "chances that it is wider.",
                            "Studentised range, any textbook of statistics; JCGM 100:2008, 4.2.3 "
                            "and F.2.2.1, for the readings and the step. 95 % is a rule of this "
                            "program" },
  [TG_REASON_ASK_SUM] = { "What goes up and down together is weighed against its band together.",
                          PRACTICE },
  [TG_REASON_ASK_LIGHTEST] = { "Nothing can be put back on: all others come down to the lightest.",
                               PRACTICE },
  [TG_REASON_ASK_HEAVIEST] = { "The heaviest has the longest way to go.", PRACTICE },
  [TG_REASON_ASK_PARTNER] = { "The best pairing needs the least metal off all sets together; of "
                              "equal ones the one that leaves most parts where they are.",
                              OWN "; the search is branch and bound, any textbook of combinatorial "
                                  "optimisation" },

  /* -- practice --------------------------------------------------------------------------------- */
  [TG_REASON_DEBRIEF_SET] = { "The true spread, heaviest minus lightest, is held against the "
                              "tolerance that the job began with; it is fair where only a wider "
                              "one holds. A figure is good within what one good reading can be "
                              "off by, and fair within half the tolerance.",
                              OWN },
  [TG_REASON_DEBRIEF_METAL] = { "What truly came off is held against the least that had to, "
                                "which the solvers of the real plan find for the true weights. "
                                "It is good within what a proof needs, fair within twice that, "
                                "and poor with any metal off a place that is not to be ground.",
                                OWN "; the least is found by a linear programme, the pairing by "
                                    "branch and bound" },
  [TG_REASON_DEBRIEF_PASSES] = { "So many passes are good as careful workers needed at most, "
                                 "measured on benches that lie as usual, and fair up to twice as "
                                 "many. A single pass is poor that wanted more than the "
                                 "instruction gave as the most, or left a part truly under its "
                                 "band.",
                                 OWN },
  [TG_REASON_DEBRIEF_READINGS] = { "Before its first pass and after its last one a part needs "
                                   "every reading that the set-up asks for. One more is too many "
                                   "where no finding doubts the part or the scale and no band "
                                   "waits for its proof.",
                                   OWN },
  [TG_REASON_DEBRIEF_WRONG] = { "A reading is held against what is true. It is wrong where it is "
                                "off by more than the step, and 3.29 standard uncertainties of "
                                "scatter, flicker and the way of the zero, explain; from half "
                                "the tolerance on that is poor.",
                                "Normal distribution, of which 0.1 % lies beyond 3.29 standard "
                                "deviations, any textbook of statistics; the limit is a rule of "
                                "this program" },
  [TG_REASON_DEBRIEF_WARNINGS] = { "A warning counts as ignored where work went on against it: a "
                                   "wrong reading kept, a part ground while in doubt, a day’s "
                                   "grinding without a look at the empty scale, a scale that is "
                                   "off used on, a decision left open.",
                                   OWN "; a look at the zero before work: common practice, no "
                                       "published source" },
  [TG_REASON_DEBRIEF_ZONES] = { "A pass is held against what the design says of its place: "
                                "whether metal may come off there, and how deep.",
                                OWN
                                "; the maker’s manual goes before the design as it was set up" },
  [TG_REASON_DEBRIEF_TIME] = { "Time runs from the first entry to the last. More than 15 minutes "
                               "between two entries are a pause and do not count.",
                               OWN },
};

const char *
tg_reason_rule (TgReason reason)
{
  g_return_val_if_fail ((guint) reason < TG_N_REASONS, "");

  return reasons[reason].rule;
}

const char *
tg_reason_source (TgReason reason)
{
  g_return_val_if_fail ((guint) reason < TG_N_REASONS, "");

  return reasons[reason].source;
}

void
tg_reason_close (GPtrArray *terms, TgReason reason)
{
  g_autofree char *source = g_strconcat (tg_reason_source (reason), ".", NULL);

  g_return_if_fail (terms != NULL);

  tg_terms_add (terms, TG_REASON_RULE, g_strdup (""), tg_reason_rule (reason));
  tg_terms_add (terms, TG_REASON_SOURCE, g_strdup (""), source);
}

gboolean
tg_reason_is_closing (const TgTerm *term)
{
  return g_str_equal (term->label, TG_REASON_RULE) || g_str_equal (term->label, TG_REASON_SOURCE);
}

/* -- sums ------------------------------------------------------------------------------------- */

char *
tg_reason_figure (double value)
{
  double size = fabs (value);

  return tg_number_format (value, size >= 100                  ? 0
                                  : size >= 10                 ? 1
                                  : size >= 1                  ? 2
                                  : size >= 0.1 || size < 1e-9 ? 3
                                                               : 4);
}

static double
rounded (double value, guint decimals)
{
  double unit = pow (10, decimals);

  return round (value * unit) / unit;
}

static gboolean
is_exact (double value, guint decimals)
{
  return fabs (value - rounded (value, decimals)) < TG_REVIEW_TINY_G;
}

static gboolean
adds_up (double a, double b, guint decimals)
{
  return fabs (rounded (a, decimals) - rounded (b, decimals) - rounded (a - b, decimals)) <
         0.1 * pow (10, -(double) decimals);
}

char *
tg_reason_difference (double a, double b, const char *unit, guint decimals)
{
  guint most = decimals + 2;
  g_autofree char *first = NULL;
  g_autofree char *second = NULL;
  g_autofree char *result = NULL;

  while (decimals < most && !(is_exact (a, decimals) && is_exact (b, decimals)))
    decimals++;
  first = tg_number_format (a, decimals);
  second = tg_number_format (b, decimals);
  result = tg_number_format (a - b, decimals);
  return g_strdup_printf ("%s − %s %s %s %s", first, second, adds_up (a, b, decimals) ? "=" : "≈",
                          result, unit);
}

char *
tg_reason_product (double factor, double value, const char *unit)
{
  g_autofree char *times = tg_number_format (factor, 2);
  g_autofree char *of = tg_reason_figure (value);
  g_autofree char *result = tg_reason_figure (factor * value);

  return g_strdup_printf ("%s × %s = %s %s", times, of, result, unit);
}
