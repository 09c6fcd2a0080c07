// Reads the audit, the newest lines first.

import { and, desc, eq, gte, inArray, isNotNull, like, lt, max, notInArray, or } from 'drizzle-orm'
import type { Db, Tx } from '../../db/client.ts'
import { audit } from '../../db/schema/audit.ts'
import { signInActions } from '../terms/actions.ts'
import type { Role } from '../terms/person.ts'
import { withEntries } from './entries.ts'

export type AuditLine = {
  id: number
  at: Date
  personName: string
  personRole: Role | null
  action: string
  subject: string
  detail: unknown
  /** whole seconds by which the machine's clock stood behind `at`, which never goes back; null where it did not */
  clockBehind: number | null
}

export const LINES_A_PAGE = 30

/** Which lines are wanted; what is undefined asks for everything. */
export type AuditWish = {
  /** such as lot/17 */
  subject?: string | undefined
  /** with everything that stands under the subject: the cords of a lot too */
  withParts?: boolean | undefined
  person?: string | undefined
  action?: string | undefined
  /** at this instant or later, and before that one */
  from?: Date | undefined
  until?: Date | undefined
  /** true: sign-ins alone; false: everything else; undefined: both */
  signIns?: boolean | undefined
  /** older than this line */
  before?: number | undefined
}

/** One page of lines, the newest first. */
export async function auditOf(db: Db | Tx, wish: AuditWish): Promise<AuditLine[]> {
  const { id, at, personName, personRole, action, subject, detail, clockBehind } = audit
  const lines = await db
    .select({ id, at, personName, personRole, action, subject, detail, clockBehind })
    .from(audit)
    .where(wanted(wish))
    .orderBy(desc(audit.id))
    .limit(LINES_A_PAGE)
  return withEntries(db, lines)
}

function wanted({ subject, withParts, person, action, from, until, signIns, before }: AuditWish) {
  return and(
    subject === undefined ? undefined : withParts ? partOf(subject) : eq(audit.subject, subject),
    person === undefined ? undefined : eq(audit.personName, person),
    action === undefined ? undefined : eq(audit.action, action),
    from && gte(audit.at, from),
    until && lt(audit.at, until),
    signIns === undefined ? undefined : (signIns ? inArray : notInArray)(audit.action, [...signInActions]),
    before === undefined ? undefined : lt(audit.id, before),
  )
}

/** The most seconds by which the machine's clock stood behind while this subject, or a part of it, was worked on; undefined where it never did. */
export async function clockBehindOf(db: Db | Tx, subject: string): Promise<number | undefined> {
  const [row] = await db
    .select({ most: max(audit.clockBehind) })
    .from(audit)
    .where(and(isNotNull(audit.clockBehind), partOf(subject)))
  return row?.most ?? undefined
}

/** The subject itself, or what stands under it. */
function partOf(subject: string) {
  return or(eq(audit.subject, subject), like(audit.subject, `${subject}/%`))
}
