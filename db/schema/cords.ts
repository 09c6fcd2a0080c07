// Drawn cords that cannot be had: recounts of a lot after its draw, and the manager's rulings on cords that are gone or spoiled here.
import { sql } from 'drizzle-orm'
import { boolean, check, foreignKey, integer, pgEnum, pgTable, primaryKey, text } from 'drizzle-orm/pg-core'
import { cordRulings } from '../../app/terms/cord.ts'
import { instant } from './columns.ts'
import { personId } from './people.ts'
import { drawnCords } from './results.ts'

export const cordRuling = pgEnum('cord_ruling', cordRulings)

const cord = { lotId: integer().notNull(), position: integer().notNull() }

/** A drawn place in which no cord lies: how many cords the lot has after all. Its frozen size and plan stay. Never changed. */
export const recounts = pgTable(
  'recounts',
  {
    ...cord,
    /** cords counted in the whole lot */
    size: integer().notNull(),
    reason: text().notNull(),
    countedBy: personId().notNull(),
    countedAt: instant().notNull().default(sql`clock_timestamp()`),
  },
  (t) => [
    primaryKey({ columns: [t.lotId, t.position] }),
    foreignKey({ columns: [t.lotId, t.position], foreignColumns: [drawnCords.lotId, drawnCords.position] }),
    check('recounts_size', sql`${t.size} >= 1`),
    check('recounts_reason', sql`length(trim(${t.reason})) between 1 and 500`),
  ],
)

/** What the manager ruled on an undecided cord, with what was known at that moment, which the database itself writes down. Never changed. */
export const rulings = pgTable(
  'rulings',
  {
    ...cord,
    ruling: cordRuling().notNull(),
    reason: text().notNull(),
    /** of the sample: what was recorded, found and undecided, this cord included */
    recorded: integer().notNull(),
    found: integer().notNull(),
    undecided: integer().notNull(),
    /** false where the firm has switched off that who reports may not rule */
    dutiesSeparated: boolean().notNull(),
    ruledBy: personId().notNull(),
    ruledAt: instant().notNull().default(sql`clock_timestamp()`),
  },
  (t) => [
    primaryKey({ columns: [t.lotId, t.position] }),
    foreignKey({ columns: [t.lotId, t.position], foreignColumns: [drawnCords.lotId, drawnCords.position] }),
    check('rulings_reason', sql`length(trim(${t.reason})) between 1 and 500`),
  ],
)
