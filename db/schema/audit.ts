// Who did what when. The service's database role may add and read, never change or remove (see the migration's grants).
import { sql } from 'drizzle-orm'
import { bigint, check, index, integer, jsonb, pgTable, primaryKey, text, timestamp } from 'drizzle-orm/pg-core'
import { people, role } from './people.ts'

export const audit = pgTable(
  'audit',
  {
    id: bigint({ mode: 'number' }).primaryKey().generatedAlwaysAsIdentity(),
    at: timestamp({ withTimezone: true, mode: 'date' }).notNull().default(sql`clock_timestamp()`),
    /** Nobody for what the service does by itself. */
    personId: integer().references(() => people.id),
    /** Name and role as they were at that moment. */
    personName: text().notNull(),
    personRole: role(),
    /** noun.past, such as lot.received */
    action: text().notNull(),
    /** path of what it was done to, such as lot/17 */
    subject: text().notNull(),
    detail: jsonb().notNull(),
    /** whole seconds by which the machine's clock stood behind `at`, which never goes back; none where it did not */
    clockBehind: integer(),
  },
  (t) => [
    index('audit_subject').on(t.subject, t.id),
    index('audit_clock_behind').on(t.subject).where(sql`${t.clockBehind} is not null`),
    check('audit_action_form', sql`${t.action} ~ '^[a-z-]+\\.[a-z-]+$'`),
  ],
)

/** How often something happened in one hour that a stranger can make happen: the audit gets a line at 1, 10, 100 … of them. */
export const eventCounts = pgTable(
  'event_counts',
  {
    event: text().notNull(),
    hour: timestamp({ withTimezone: true, mode: 'date' }).notNull(),
    times: integer().notNull(),
  },
  (t) => [primaryKey({ columns: [t.event, t.hour] })],
)
