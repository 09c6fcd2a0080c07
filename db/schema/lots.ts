// A lot from its announcement to its decision: the lot, its frozen plan, and the decision.
import { sql } from 'drizzle-orm'
import {
  type AnyPgColumn,
  boolean,
  check,
  date,
  index,
  integer,
  jsonb,
  numeric,
  pgTable,
  primaryKey,
  text,
  uniqueIndex,
} from 'drizzle-orm/pg-core'
import { instant } from './columns.ts'
import { decidedAfter, lotState, outcome, planKind, severity, tableStanding, verdict } from './lot-words.ts'
import { personId } from './people.ts'
import { afterRejection, inspectionLevel, marginalPolicy, ofSeries, undecidedRule } from './register.ts'
import { planStages } from './stages.ts'

export const lots = pgTable(
  'lots',
  {
    id: integer().primaryKey().generatedAlwaysAsIdentity(),
    ...ofSeries(),
    announcedSize: integer().notNull(),
    cartons: integer().notNull(),
    /** cords in a full carton; the last carton may hold fewer */
    cordsInCarton: integer().notNull(),
    productionMark: text().notNull(),
    purchaseOrder: text().notNull(),
    /** of this order, in place of the item's */
    clauseNumber: text(),
    clauseText: text(),
    /** no series stands behind it: switching rules say nothing of it */
    isolated: boolean().notNull().default(false),
    /** the lot went back before, as this other one, and comes again after a declared sorting; once, those withdrawn before they came not counted */
    resubmissionOf: integer().references((): AnyPgColumn => lots.id),
    declaredSorting: text(),
    /** the lot that it was sent in the place of */
    replacementOf: integer().references((): AnyPgColumn => lots.id),
    announcedBy: personId().notNull(),
    announcedAt: instant().notNull().default(sql`clock_timestamp()`),
    /** the number counted at the dock: N from then on */
    size: integer(),
    receivedBy: personId(),
    receivedAt: instant(),
    receiptNote: text(),
    state: lotState().notNull().default('announced'),
    withdrawnBy: personId(),
    withdrawnAt: instant(),
    withdrawalReason: text(),
    /** goes up with every change, so that a form made from an older page is refused; kept by the database itself */
    version: integer().notNull().default(1),
    /** when the lot last moved: an act on it, or an entry of one of its cords; kept by the database itself, and never goes back */
    movedAt: instant().notNull().default(sql`clock_timestamp()`),
    /** the same once nothing more is to be done; it stands apart so that an entry at the bench touches no index */
    doneAt: instant(),
  },
  (t) => [
    index('lots_state').on(t.state, t.id),
    index('lots_done').on(t.doneAt, t.id),
    index('lots_supplier').on(t.supplierId, t.id),
    index('lots_item').on(t.itemId, t.id),
    uniqueIndex('lots_resubmitted_once')
      .on(t.resubmissionOf)
      .where(sql`${t.size} is not null or ${t.state} <> 'withdrawn'`),
    index('lots_replacements').on(t.replacementOf),
    check('lots_one_former', sql`num_nonnulls(${t.resubmissionOf}, ${t.replacementOf}) <= 1`),
    check(
      'lots_declared_sorting',
      sql`(${t.resubmissionOf} is null) = (${t.declaredSorting} is null) and length(trim(${t.declaredSorting})) between 1 and 2000`,
    ),
    check(
      'lots_clause',
      sql`(${t.clauseNumber} is null) = (${t.clauseText} is null) and length(trim(${t.clauseNumber})) between 1 and 40 and length(trim(${t.clauseText})) between 1 and 2000`,
    ),
    check('lots_announced_size', sql`${t.announcedSize} between 1 and 1000000`),
    check('lots_size', sql`${t.size} between 1 and 1000000`),
    check('lots_cartons', sql`${t.cartons} >= 1 and ${t.cordsInCarton} >= 1`),
    check(
      'lots_cartons_hold_the_cords',
      sql`coalesce(${t.size}, ${t.announcedSize})::bigint between (${t.cartons}::bigint - 1) * ${t.cordsInCarton} + 1 and ${t.cartons}::bigint * ${t.cordsInCarton}`,
    ),
    check(
      'lots_received_whole',
      sql`(${t.size} is null) = (${t.receivedAt} is null) and (${t.size} is null) = (${t.receivedBy} is null) and (${t.size} is not null or ${t.state} in ('announced', 'withdrawn'))`,
    ),
    check(
      'lots_withdrawn_with_reason',
      sql`(${t.state} = 'withdrawn') = (${t.withdrawalReason} is not null and ${t.withdrawnBy} is not null and ${t.withdrawnAt} is not null)`,
    ),
  ],
)

/** Frozen before any cord is opened: the plan and the terms of the item as they then stood. Never changed afterwards. */
export const plans = pgTable(
  'plans',
  {
    lotId: integer()
      .primaryKey()
      .references(() => lots.id),
    kind: planKind().notNull(),
    lotSize: integer().notNull(),
    /** of the last stage: the most that may have to be tested, and the number that then decides */
    sampleSize: integer().notNull(),
    acceptanceNumber: integer().notNull(),
    stages: planStages().notNull(),
    /** cords of a group where one goes cord by cord in groups; none else */
    groupSize: integer(),
    /** the number that is too many, in whole cords of this lot */
    tooMany: integer().notNull(),
    catchOf100: numeric().notNull(),
    categoryClaimed: text().notNull(),
    cordLimit: text().notNull(),
    marginalPolicy: marginalPolicy().notNull(),
    crosstalkAccuracy: numeric().notNull(),
    returnLossAccuracy: numeric().notNull(),
    costTestCents: integer().notNull(),
    costEscapeCents: integer().notNull(),
    costReturnCents: integer().notNull(),
    afterRejection: afterRejection().notNull().default('return'),
    undecidedCounts: undecidedRule().notNull().default('manager-rules'),
    /** The standard's own plan in the severity of the series at that moment, on the first picks of the draw; none where no contract names a
     * limit, or the lot stands in no series. */
    standardSampleSize: integer(),
    standardAcceptanceNumber: integer(),
    standardRejectionNumber: integer(),
    standardSeverity: severity(),
    /** acceptance quality limit in percent, as the tables write it */
    standardLimit: text(),
    standardLevel: inspectionLevel(),
    standardLetter: text(),
    standardStanding: tableStanding(),
    /** why a plan was taken that lets more through than the item demands; none where it does not */
    weakerReason: text(),
    /** the contract's clause is the reason, with or without words beside it */
    weakerByClause: boolean().notNull().default(false),
    /** of the order, or else of the item, as it stood then */
    clauseNumber: text(),
    clauseText: text(),
    /** the officer whose rule made the plan when the count was confirmed; none where the officer froze it */
    chosenBy: personId(),
    frozenBy: personId().notNull(),
    frozenAt: instant().notNull().default(sql`clock_timestamp()`),
  },
  (t) => [
    check('plans_sample', sql`${t.sampleSize} between 1 and ${t.lotSize}`),
    check('plans_acceptance', sql`${t.acceptanceNumber} between 0 and ${t.sampleSize}`),
    check(
      'plans_clause',
      sql`(${t.clauseNumber} is null) = (${t.clauseText} is null) and length(trim(${t.clauseNumber})) between 1 and 40 and length(trim(${t.clauseText})) between 1 and 2000`,
    ),
    check('plans_weaker_by_clause', sql`not ${t.weakerByClause} or ${t.clauseNumber} is not null`),
    check('plans_weaker_reason', sql`length(trim(${t.weakerReason})) between 1 and 2000`),
    check('plans_too_many', sql`${t.tooMany} between 1 and ${t.lotSize}`),
    check(
      'plans_last_stage',
      sql`jsonb_typeof(${t.stages}) = 'array' and (${t.stages} -> -1 ->> 'sampleSize')::int is not distinct from ${t.sampleSize} and (${t.stages} -> -1 ->> 'acceptanceNumber')::int is not distinct from ${t.acceptanceNumber}`,
    ),
    check(
      'plans_stages_of_their_kind',
      sql`jsonb_array_length(${t.stages}) = 1 or ${t.kind}::text in ('double', 'groups', 'sequential', 'standard')`,
    ),
    check(
      'plans_group_size',
      sql`(${t.groupSize} is not null) = (${t.kind}::text = 'groups') and ${t.groupSize} between 2 and 1000`,
    ),
    check(
      'plans_standard_whole',
      sql`num_nonnulls(${t.standardSampleSize}, ${t.standardAcceptanceNumber}, ${t.standardRejectionNumber}, ${t.standardSeverity}, ${t.standardLimit}, ${t.standardLevel}, ${t.standardLetter}, ${t.standardStanding}) in (0, 8)`,
    ),
    check(
      'plans_standard_numbers',
      sql`${t.standardSampleSize} between 1 and ${t.lotSize} and ${t.standardAcceptanceNumber} >= 0 and ${t.standardRejectionNumber} > ${t.standardAcceptanceNumber}`,
    ),
    check(
      'plans_every_cord',
      sql`${t.kind} <> 'every-cord' or (${t.sampleSize} = ${t.lotSize} and ${t.acceptanceNumber} = ${t.lotSize})`,
    ),
  ],
)

export const decisions = pgTable(
  'decisions',
  {
    lotId: integer()
      .notNull()
      .references(() => lots.id),
    after: decidedAfter().notNull(),
    outcome: outcome().notNull(),
    /** none after a screening: there the plan has no say */
    verdict: verdict(),
    /** empty only where the decision does not go against the plan's verdict */
    reason: text().notNull(),
    /** what was recorded and counted at that moment: the sample, or after a screening every cord */
    recorded: integer().notNull(),
    found: integer().notNull(),
    /** most that may not conform in the whole lot, one-sided 95 %, as the page showed it */
    upperBoundInLot: integer().notNull(),
    /** everything the decision rests on, as it then stood: inputs, plan, draw, results, numbers, method */
    evidence: jsonb().notNull(),
    /** false where the firm has switched off that who records may not decide */
    dutiesSeparated: boolean().notNull(),
    /** a concession says who bears the risk and agreed, for which use, how many cords, until when */
    riskBearer: text(),
    concessionUse: text(),
    concessionCords: integer(),
    concessionUntil: date({ mode: 'string' }),
    decidedBy: personId().notNull(),
    decidedAt: instant().notNull().default(sql`clock_timestamp()`),
  },
  (t) => [
    primaryKey({ columns: [t.lotId, t.after] }),
    check(
      'decisions_outcome_of_its_time',
      sql`(${t.after} = 'sample') = (${t.verdict} is not null) and ((${t.after} = 'sample' and ${t.outcome}::text <> 'sorted') or (${t.after} = 'screening' and ${t.outcome}::text in ('sorted', 'returned')))`,
    ),
    check(
      'decisions_against_the_verdict_with_reason',
      sql`length(trim(${t.reason})) > 0 or ${t.after} = 'screening' or (${t.verdict} = 'accept' and ${t.outcome} = 'accepted') or (${t.verdict} = 'reject' and ${t.outcome} in ('returned', 'screened'))`,
    ),
    check(
      'decisions_concession_whole',
      sql`case when ${t.outcome} = 'conceded' then length(trim(coalesce(${t.riskBearer}, ''))) > 0 and length(trim(coalesce(${t.concessionUse}, ''))) > 0 and ${t.concessionCords} >= 1 and ${t.concessionUntil} is not null
        else ${t.riskBearer} is null and ${t.concessionUse} is null and ${t.concessionCords} is null and ${t.concessionUntil} is null end`,
    ),
  ],
)
