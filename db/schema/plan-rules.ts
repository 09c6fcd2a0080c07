// The rule by which the plan of an announced lot freezes itself once the lot is counted.
import { sql } from 'drizzle-orm'
import { boolean, check, integer, numeric, pgEnum, pgTable, text, timestamp, unique } from 'drizzle-orm/pg-core'
import { ruleWaits } from '../../app/terms/lot.ts'
import { planKind } from './lot-words.ts'
import { lots } from './lots.ts'
import { people } from './people.ts'
import { items } from './register.ts'

export const ruleWait = pgEnum('rule_wait', ruleWaits)

/** At most one a lot, chosen while it is announced. The plan that it freezes refers to it, by hand-written SQL: lot, kind and who chose. */
export const planRules = pgTable(
  'plan_rules',
  {
    lotId: integer()
      .primaryKey()
      .references(() => lots.id),
    kind: planKind().notNull(),
    /** of a plan with numbers of its own */
    sampleSize: integer(),
    acceptanceNumber: integer(),
    /** of a plan for both risks: a lot with so few is to be rejected with at most this chance */
    good: integer(),
    goodRisk: numeric(),
    /** why a weaker plan than the item demands may be frozen */
    reason: text(),
    /** the contract's clause is the reason, as it stands when the plan freezes */
    byClause: boolean().notNull().default(false),
    /** the item as the officer saw it: changed since, it is for the officer to look again */
    itemId: integer()
      .notNull()
      .references(() => items.id),
    itemVersion: integer().notNull(),
    chosenBy: integer()
      .notNull()
      .references(() => people.id),
    chosenAt: timestamp({ withTimezone: true, mode: 'date' }).notNull().default(sql`clock_timestamp()`),
    /** why the plan did not freeze by itself at the latest count */
    waits: ruleWait(),
  },
  (t) => [
    unique('plan_rules_chosen').on(t.lotId, t.kind, t.chosenBy),
    check('plan_rules_kind', sql`${t.kind}::text in ('zero-acceptance', 'single', 'contract', 'every-cord')`),
    check(
      'plan_rules_numbers',
      sql`num_nonnulls(${t.sampleSize}, ${t.acceptanceNumber}) = case ${t.kind}::text when 'contract' then 2 else 0 end and ${t.sampleSize} > ${t.acceptanceNumber} and ${t.acceptanceNumber} >= 0`,
    ),
    check(
      'plan_rules_good',
      sql`num_nonnulls(${t.good}, ${t.goodRisk}) = case ${t.kind}::text when 'single' then 2 else 0 end and ${t.good} >= 0 and ${t.goodRisk} > 0 and ${t.goodRisk} < 1`,
    ),
    check('plan_rules_reason', sql`length(trim(${t.reason})) between 1 and 2000`),
  ],
)
