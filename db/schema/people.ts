// Who may do what: people, their sessions, sign-in attempts, the one-time set-up link, forms already taken, and the firm itself.
import { sql } from 'drizzle-orm'
import {
  boolean,
  check,
  index,
  integer,
  pgEnum,
  pgTable,
  primaryKey,
  text,
  timestamp,
  uniqueIndex,
  uuid,
} from 'drizzle-orm/pg-core'

export const role = pgEnum('role', ['officer', 'inspector', 'manager'])

const instant = () => timestamp({ withTimezone: true, mode: 'date' })

export const people = pgTable(
  'people',
  {
    id: integer().primaryKey().generatedAlwaysAsIdentity(),
    name: text().notNull(),
    role: role().notNull(),
    passwordHash: text().notNull(),
    active: boolean().notNull().default(true),
    createdAt: instant().notNull().default(sql`clock_timestamp()`),
  },
  (t) => [
    uniqueIndex('people_name').on(sql`lower(${t.name})`),
    check('people_name_length', sql`length(trim(${t.name})) between 1 and 80`),
  ],
)

/** Only the SHA-256 of a session's token is kept: a copy of the table opens no session. */
export const sessions = pgTable(
  'sessions',
  {
    tokenHash: text().primaryKey(),
    personId: integer()
      .notNull()
      .references(() => people.id),
    createdAt: instant().notNull().default(sql`clock_timestamp()`),
    lastSeenAt: instant().notNull().default(sql`clock_timestamp()`),
    expiresAt: instant().notNull(),
  },
  (t) => [index('sessions_person').on(t.personId), index('sessions_expiry').on(t.expiresAt)],
)

/** Failed passwords of one name in one window of time: the lock against guessing. */
export const signInAttempts = pgTable(
  'sign_in_attempts',
  { name: text().notNull(), windowStart: instant().notNull(), failures: integer().notNull() },
  (t) => [primaryKey({ columns: [t.name, t.windowStart] })],
)

/** The link that an empty database prints on the console; used once, to make the first manager. */
export const setUpLinks = pgTable('set_up_links', {
  tokenHash: text().primaryKey(),
  createdAt: instant().notNull().default(sql`clock_timestamp()`),
  usedAt: instant(),
})

/** One row at most: the firm that this database belongs to, and whether it is the invented example. */
export const firms = pgTable(
  'firms',
  {
    id: integer().primaryKey().default(1),
    name: text().notNull(),
    example: boolean().notNull(),
    createdAt: instant().notNull().default(sql`clock_timestamp()`),
  },
  (t) => [
    check('firms_single', sql`${t.id} = 1`),
    check('firms_name_length', sql`length(trim(${t.name})) between 1 and 120`),
  ],
)

/** Keys of forms that were carried out, for a day. The same form sent twice meets its own key here and changes nothing. */
export const submissions = pgTable(
  'submissions',
  {
    key: uuid().primaryKey(),
    personId: integer()
      .notNull()
      .references(() => people.id),
    /** what the form did, in the audit's words */
    act: text().notNull(),
    /** path of what it did it to */
    subject: text().notNull(),
    /** SHA-256 of what was typed, passwords left out */
    inputDigest: text().notNull(),
    at: instant().notNull().default(sql`clock_timestamp()`),
    /** number of what the form made, so that the same form sent again is answered with the same thing */
    made: integer(),
  },
  (t) => [index('submissions_at').on(t.at)],
)
