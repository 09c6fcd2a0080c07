// Who may do what: people, their sessions, wrong passwords, one-time links, forms already taken, and the firm itself.
import { sql } from 'drizzle-orm'
import { boolean, check, index, integer, pgEnum, pgTable, text, uuid } from 'drizzle-orm/pg-core'

import { linkPurposes, roles } from '../../app/terms/person.ts'
import { instant } from './columns.ts'

export const role = pgEnum('role', roles)

export const people = pgTable(
  'people',
  {
    id: integer().primaryKey().generatedAlwaysAsIdentity(),
    name: text().notNull(),
    role: role().notNull(),
    /** none after a reset, until the person chooses one by the link */
    passwordHash: text(),
    /** typed by the manager who made the account: nothing can be done with it but to choose another */
    passwordTemporary: boolean().notNull().default(false),
    active: boolean().notNull().default(true),
    createdAt: instant().notNull().default(sql`clock_timestamp()`),
  },
  // names are unique as `folded` reads them: see the index people_name in the rules by hand
  (t) => [check('people_name_length', sql`length(trim(${t.name})) between 1 and 80`)],
)

/** Who did it. */
export const personId = () => integer().references(() => people.id)

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

/**
 * Wrong passwords in a row, and when the next one is looked at. `counter` says whose: a network's at a name, of which only
 * a short digest is kept, or a signed-in person's signature.
 */
export const passwordAttempts = pgTable(
  'password_attempts',
  {
    counter: text().primaryKey(),
    failures: integer().notNull(),
    lastAt: instant().notNull(),
    nextAt: instant().notNull(),
  },
  (t) => [index('password_attempts_last').on(t.lastAt)],
)

export const linkPurpose = pgEnum('link_purpose', linkPurposes)

/** Links that work once, each for one purpose and until a stated time. Only the SHA-256 of a link's token is kept. */
export const oneTimeLinks = pgTable(
  'one_time_links',
  {
    tokenHash: text().primaryKey(),
    purpose: linkPurpose().notNull(),
    /** whose new password it is for */
    personId: integer().references(() => people.id),
    createdAt: instant().notNull().default(sql`clock_timestamp()`),
    expiresAt: instant().notNull(),
    usedAt: instant(),
  },
  (t) => [
    index('one_time_links_person').on(t.personId),
    check('one_time_links_whose', sql`(${t.purpose} = 'new-password') = (${t.personId} is not null)`),
  ],
)

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

/**
 * Keys of forms that were carried out, for a day. The same form sent twice meets its own key here and changes nothing. A
 * form of the bench is known by the key that its entry keeps for good: here stands only that the key is used.
 */
export const submissions = pgTable(
  'submissions',
  {
    key: uuid().primaryKey(),
    personId: integer()
      .notNull()
      .references(() => people.id),
    /** what the form did, in the audit's words */
    act: text(),
    /** path of what it did it to */
    subject: text(),
    /** SHA-256 of what was typed, passwords left out */
    inputDigest: text(),
    at: instant().notNull().default(sql`clock_timestamp()`),
    /** number of what the form made, so that the same form sent again is answered with the same thing */
    made: integer(),
  },
  (t) => [index('submissions_at').using('brin', t.at)],
)
