// What decisions add up to by series, kept by the database itself.
import { bigint, integer, pgTable, primaryKey } from 'drizzle-orm/pg-core'
import { instant } from './columns.ts'
import { ofSeries } from './register.ts'

/** What the decisions of a supplier's lots of one item add up to, kept by the database itself (a trigger on decisions), so that lists and alerts need not read every lot. A resubmitted lot adds none. */
export const seriesCounts = pgTable(
  'series_counts',
  {
    ...ofSeries(),
    /** decided after their sample; what was then recorded and found in the samples */
    lots: integer().notNull(),
    recorded: bigint({ mode: 'number' }).notNull(),
    found: bigint({ mode: 'number' }).notNull(),
    /** of these closed after a screening */
    closed: integer().notNull(),
    latestDecidedAt: instant().notNull(),
  },
  (t) => [primaryKey({ columns: [t.supplierId, t.itemId] })],
)
