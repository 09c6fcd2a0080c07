// What a buyer keeps a register of: suppliers, and items with what they demand and cost.
import { sql } from 'drizzle-orm'
import {
  boolean,
  check,
  index,
  integer,
  numeric,
  pgEnum,
  pgTable,
  text,
  timestamp,
  uniqueIndex,
} from 'drizzle-orm/pg-core'
import { afterRejections, decisionRules, undecidedRules } from '../../app/terms/item.ts'
import { seriesNoteKinds } from '../../app/terms/series.ts'
import { instant } from './columns.ts'
import { people } from './people.ts'

export const inspectionLevel = pgEnum('inspection_level', ['S-1', 'S-2', 'S-3', 'S-4', 'I', 'II', 'III'])
export const seriesNote = pgEnum('series_note', seriesNoteKinds)
export const marginalPolicy = pgEnum('marginal_policy', decisionRules)
export const afterRejection = pgEnum('after_rejection', afterRejections)
export const undecidedRule = pgEnum('undecided_rule', undecidedRules)

export const suppliers = pgTable(
  'suppliers',
  {
    id: integer().primaryKey().generatedAlwaysAsIdentity(),
    name: text().notNull(),
    createdBy: integer()
      .notNull()
      .references(() => people.id),
    createdAt: instant().notNull().default(sql`clock_timestamp()`),
  },
  (t) => [
    uniqueIndex('suppliers_name').on(sql`lower(${t.name})`),
    check('suppliers_name_length', sql`length(trim(${t.name})) between 1 and 120`),
  ],
)

/** What is bought. A change reaches only lots whose plan is not frozen yet: a frozen plan keeps its own copy of these terms. */
export const items = pgTable(
  'items',
  {
    id: integer().primaryKey().generatedAlwaysAsIdentity(),
    name: text().notNull(),
    /** category the maker claims, such as Category 6A */
    categoryClaimed: text().notNull(),
    /** the cord limit that the tester judges against, with its edition */
    cordLimit: text().notNull(),
    lengthMetres: numeric().notNull(),
    marginalPolicy: marginalPolicy().notNull(),
    /** the tester's accuracy at the limit, ± dB */
    crosstalkAccuracy: numeric().notNull(),
    returnLossAccuracy: numeric().notNull(),
    /** too many, as the buyer says it: a whole number such as 5, or a share such as 1 % as '1%' */
    tooMany: text().notNull(),
    /** of 100 lots with too many, how many must be caught */
    catchOf100: numeric().notNull(),
    costTestCents: integer().notNull(),
    costEscapeCents: integer().notNull(),
    costReturnCents: integer().notNull(),
    /** cords in a critical place: such a lot is always tested whole */
    critical: boolean().notNull().default(false),
    /** of the published attributes standard, in percent nonconforming; none where no contract names it */
    acceptanceQualityLimit: numeric(),
    inspectionLevel: inspectionLevel().notNull().default('II'),
    /** a count that differs from the announced one by more, in percent of it, leaves the plan to the officer */
    countDifferencePercent: numeric().notNull().default('2'),
    afterRejection: afterRejection().notNull().default('return'),
    /** cords of a group where one goes cord by cord in groups: what the bench tests in an hour */
    groupSize: integer().notNull().default(30),
    /** of the contract under which the item is bought, quoted with every lot whose order has none of its own */
    clauseNumber: text(),
    clauseText: text(),
    /** what a drawn cord counts as that is gone or spoiled here */
    undecidedCounts: undecidedRule().notNull().default('manager-rules'),
    createdBy: integer()
      .notNull()
      .references(() => people.id),
    createdAt: instant().notNull().default(sql`clock_timestamp()`),
    version: integer().notNull().default(1),
  },
  (t) => [
    uniqueIndex('items_name').on(sql`lower(${t.name})`),
    check('items_name_length', sql`length(trim(${t.name})) between 1 and 120`),
    check('items_length', sql`${t.lengthMetres} > 0 and ${t.lengthMetres} <= 100`),
    check(
      'items_accuracy',
      sql`${t.crosstalkAccuracy} >= 0 and ${t.crosstalkAccuracy} <= 20 and ${t.returnLossAccuracy} >= 0 and ${t.returnLossAccuracy} <= 20`,
    ),
    check('items_too_many', sql`${t.tooMany} ~ '^([1-9][0-9]*|[0-9]+(\\.[0-9]+)?%)$'`),
    check('items_quality_limit', sql`${t.acceptanceQualityLimit} > 0 and ${t.acceptanceQualityLimit} <= 10`),
    check('items_count_difference', sql`${t.countDifferencePercent} between 0 and 100`),
    check(
      'items_clause',
      sql`(${t.clauseNumber} is null) = (${t.clauseText} is null) and length(trim(${t.clauseNumber})) between 1 and 40 and length(trim(${t.clauseText})) between 1 and 2000`,
    ),
    check('items_group_size', sql`${t.groupSize} between 2 and 1000`),
    check('items_catch', sql`${t.catchOf100} > 0 and ${t.catchOf100} < 100`),
    check('items_costs', sql`${t.costTestCents} >= 0 and ${t.costEscapeCents} >= 0 and ${t.costReturnCents} >= 0`),
  ],
)

/** Whose lots, and of what. */
export const ofSeries = () => ({
  supplierId: integer()
    .notNull()
    .references(() => suppliers.id),
  itemId: integer()
    .notNull()
    .references(() => items.id),
})

/** A manager's words about a supplier's series of one item; added to, never changed. The inspection state itself is computed. */
export const seriesNotes = pgTable(
  'series_notes',
  {
    id: integer().primaryKey().generatedAlwaysAsIdentity(),
    ...ofSeries(),
    kind: seriesNote().notNull(),
    reason: text().notNull(),
    notedBy: integer()
      .notNull()
      .references(() => people.id),
    at: timestamp({ withTimezone: true, mode: 'date' }).notNull().default(sql`clock_timestamp()`),
  },
  (t) => [
    index('series_notes_series').on(t.supplierId, t.itemId, t.id),
    check('series_notes_reason', sql`length(trim(${t.reason})) between 1 and 2000`),
  ],
)
