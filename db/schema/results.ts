// What was drawn from a lot and what the tester said of each cord.
import { sql } from 'drizzle-orm'
import {
  boolean,
  check,
  foreignKey,
  index,
  integer,
  numeric,
  pgEnum,
  pgTable,
  primaryKey,
  text,
  uniqueIndex,
  uuid,
} from 'drizzle-orm/pg-core'
import { inspections, purposes, resultKinds, resultStates } from '../../app/terms/cord.ts'
import { instant } from './columns.ts'
import { lots } from './lots.ts'
import { personId } from './people.ts'

export const drawnFor = pgEnum('drawn_for', purposes)
export const resultKind = pgEnum('result_kind', resultKinds)
export const cordState = pgEnum('cord_state', resultStates)
export const inspection = pgEnum('inspection', inspections)

/** One draw a lot, never repeated: from the seed and the lot size anybody can draw the same positions again. */
export const draws = pgTable('draws', {
  lotId: integer()
    .primaryKey()
    .references(() => lots.id),
  seed: text().notNull(),
  method: text().notNull(),
  drawnBy: personId().notNull(),
  drawnAt: instant().notNull().default(sql`clock_timestamp()`),
})

export const drawnCords = pgTable(
  'drawn_cords',
  {
    lotId: integer()
      .notNull()
      .references(() => draws.lotId),
    /** 1 to N: carton and place in it follow from the cords in a carton */
    position: integer().notNull(),
    purpose: drawnFor().notNull(),
    /** 1, 2, 3 … in the order drawn; none for the rest of a screened lot */
    pick: integer(),
    /** number of the plan's stage that it belongs to, a stand-in to that of the cord it replaces; none for the rest */
    stage: integer(),
    /** position of the cord that this stand-in replaces */
    standsInFor: integer(),
    /** of a stand-in the pick of the draw whose place it holds, also where it stands in for a stand-in; set by the database */
    takesPick: integer(),
    allowedBy: personId(),
  },
  (t) => [
    primaryKey({ columns: [t.lotId, t.position] }),
    uniqueIndex('drawn_cords_pick').on(t.lotId, t.pick),
    // Of stand-ins alone: they are few, so that their count never reads a lot, whatever the database knows of it.
    uniqueIndex('drawn_cords_one_stand_in').on(t.lotId, t.standsInFor).where(sql`${t.standsInFor} is not null`),
    foreignKey({ columns: [t.lotId, t.standsInFor], foreignColumns: [t.lotId, t.position] }),
    check('drawn_cords_position', sql`${t.position} >= 1`),
    check('drawn_cords_pick_unless_rest', sql`(${t.purpose} = 'rest') = (${t.pick} is null)`),
    check('drawn_cords_stage_unless_rest', sql`(${t.purpose} = 'rest') = (${t.stage} is null) and ${t.stage} >= 1`),
    check('drawn_cords_takes_pick', sql`(${t.purpose} = 'stand-in') = (${t.takesPick} is not null)`),
    check(
      'drawn_cords_stand_in',
      sql`(${t.purpose} = 'stand-in') = (${t.standsInFor} is not null and ${t.allowedBy} is not null)`,
    ),
  ],
)

const reading = {
  kind: resultKind().notNull(),
  /** dB above (+) or below (−) the cord limit, every digit as it was entered */
  crosstalkMargin: numeric(),
  returnLossMargin: numeric(),
  wireMap: inspection(),
  visual: inspection(),
  state: cordState().notNull(),
  /** by the plan's frozen terms: does it count against the acceptance number? */
  nonconforming: boolean().notNull(),
  /** why a cord has no readings */
  note: text(),
  carton: text(),
  spool: text(),
  testerSerial: text(),
  recordedBy: personId().notNull(),
  /** key of the bench's form that made this entry, for good; none where it came by a file. Found by lot and cord: no index */
  formKey: uuid(),
}

/** The entry that stands for a cord: one a cord, by the key. */
export const results = pgTable(
  'results',
  {
    lotId: integer().notNull(),
    position: integer().notNull(),
    ...reading,
    /** false of a cord that decides nothing: undecided, or a stand-in has taken its place, or there is none in its place */
    counts: boolean().notNull().default(true),
    /** gone or spoiled here, and nobody has ruled on it */
    undecided: boolean().notNull().default(false),
    entry: integer().notNull().default(1),
    recordedAt: instant().notNull().default(sql`clock_timestamp()`),
    /** the lot's version when the entry was made, set by a trigger: unlike a clock it tells for certain what a signature saw */
    lotVersion: integer().notNull().default(0),
  },
  (t) => [
    primaryKey({ columns: [t.lotId, t.position] }),
    foreignKey({ columns: [t.lotId, t.position], foreignColumns: [drawnCords.lotId, drawnCords.position] }),
    index('results_recorder').on(t.lotId, t.recordedBy),
    index('results_nonconforming').on(t.lotId, t.position).where(sql`${t.nonconforming}`),
    index('results_undecided').on(t.lotId, t.position).where(sql`${t.undecided}`),
    index('results_rejecting').on(t.lotId, t.recordedAt, t.position).where(sql`${t.nonconforming} and ${t.counts}`),
    check(
      'results_margins_in_range',
      sql`${t.crosstalkMargin} between -100 and 100 and ${t.returnLossMargin} between -100 and 100`,
    ),
    check(
      'results_whole',
      sql`case ${t.kind}::text when 'tested' then ${t.wireMap} is not null and ${t.visual} is not null and ${t.state} <> 'not-tested'
        and (${t.wireMap} = 'at-fault' or ${t.visual} = 'at-fault' or (${t.crosstalkMargin} is not null and ${t.returnLossMargin} is not null))
        when 'damaged' then ${t.state} = 'does-not-conform' and ${t.visual} = 'at-fault' and ${t.wireMap} is null
        and length(trim(coalesce(${t.note}, ''))) > 0 and ${t.crosstalkMargin} is null and ${t.returnLossMargin} is null
        else ${t.state} = 'not-tested' and ${t.nonconforming} and length(trim(coalesce(${t.note}, ''))) > 0 and ${t.crosstalkMargin} is null and ${t.returnLossMargin} is null end`,
    ),
    check(
      'results_below_the_limit',
      sql`${t.state} = 'does-not-conform' or not (coalesce(${t.crosstalkMargin}, 0) < 0 or coalesce(${t.returnLossMargin}, 0) < 0 or ${t.wireMap} = 'at-fault' or ${t.visual} = 'at-fault')`,
    ),
    check(
      'results_counts_against',
      sql`(${t.state} <> 'does-not-conform' or ${t.nonconforming}) and (${t.state} <> 'conforms' or not ${t.nonconforming})`,
    ),
    check(
      'results_counting',
      sql`case when ${t.kind}::text in ('tested', 'damaged') then ${t.counts} else ${t.kind}::text <> 'no-cord' or not ${t.counts} end`,
    ),
    check(
      'results_undecided_kind',
      sql`not ${t.undecided} or (not ${t.counts} and ${t.kind}::text in ('gone', 'spoiled'))`,
    ),
  ],
)

/** Entries that a correction replaced, with the reason; the first one stays readable for ever. */
export const earlierResults = pgTable(
  'earlier_results',
  {
    lotId: integer().notNull(),
    position: integer().notNull(),
    entry: integer().notNull(),
    ...reading,
    recordedAt: instant().notNull(),
    lotVersion: integer().notNull(),
    correctedBy: personId().notNull(),
    correctedAt: instant().notNull().default(sql`clock_timestamp()`),
    correctionReason: text().notNull(),
  },
  (t) => [
    primaryKey({ columns: [t.lotId, t.position, t.entry] }),
    foreignKey({ columns: [t.lotId, t.position], foreignColumns: [results.lotId, results.position] }),
    check('earlier_results_reason', sql`length(trim(${t.correctionReason})) > 0`),
  ],
)

/** Sums of what counts in a lot's results, kept by the database itself (a trigger on results), so that history need not read a million cords. */
export const tallies = pgTable('tallies', {
  lotId: integer()
    .primaryKey()
    .references(() => lots.id),
  sampleRecorded: integer().notNull().default(0),
  sampleNonconforming: integer().notNull().default(0),
  restRecorded: integer().notNull().default(0),
  restNonconforming: integer().notNull().default(0),
  notTested: integer().notNull().default(0),
  /** of these the ones of the sample: they break the condition of its bounds */
  sampleNotTested: integer().notNull().default(0),
  /** not in their place or gone, whether they count or a stand-in replaced them */
  missing: integer().notNull().default(0),
  marginal: integer().notNull().default(0),
  crosstalkShort: integer().notNull().default(0),
  returnLossShort: integer().notNull().default(0),
  wireMapAtFault: integer().notNull().default(0),
  visualAtFault: integer().notNull().default(0),
  /** cords drawn in the place of others */
  standIns: integer().notNull().default(0),
  /** drawn cords that are gone or spoiled here and not ruled on */
  undecided: integer().notNull().default(0),
  /** drawn cords that count nowhere, as a stand-in took their place */
  replaced: integer().notNull().default(0),
  /** drawn places in which no cord lies */
  noCord: integer().notNull().default(0),
  /** of the latest recount after the draw; none where there was none */
  recountedSize: integer(),
  /** of the first picks of the draw that the standard's plan asks for: what counts of them, and how many do not conform */
  firstFetchRecorded: integer().notNull().default(0),
  firstFetchFound: integer().notNull().default(0),
})

/** The same by spool mark, for cords that carry one: whether cords of one spool stand or fall together. */
export const spoolTallies = pgTable(
  'spool_tallies',
  {
    lotId: integer()
      .notNull()
      .references(() => lots.id),
    spool: text().notNull(),
    recorded: integer().notNull(),
    nonconforming: integer().notNull(),
  },
  (t) => [primaryKey({ columns: [t.lotId, t.spool] })],
)
