// Reads the audit, the newest lines first.

import { and, desc, eq, isNotNull, like, lt, max, or } from 'drizzle-orm'
import type { Db, Tx } from '../../db/client.ts'
import { audit } from '../../db/schema/audit.ts'
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

export const LINES_A_PAGE = 100

/** One page of lines about `subject` (such as lot/17; undefined: about anything), older than the line `before`. */
export async function auditOf(
  db: Db | Tx,
  { subject, before }: { subject: string | undefined; before: number | undefined },
): Promise<AuditLine[]> {
  const { id, at, personName, personRole, action, detail, clockBehind } = audit
  const lines = await db
    .select({ id, at, personName, personRole, action, subject: audit.subject, detail, clockBehind })
    .from(audit)
    .where(
      and(
        subject === undefined ? undefined : eq(audit.subject, subject),
        before === undefined ? undefined : lt(audit.id, before),
      ),
    )
    .orderBy(desc(audit.id))
    .limit(LINES_A_PAGE)
  return withEntries(db, lines)
}

/** The most seconds by which the machine's clock stood behind while this subject, or a part of it, was worked on; undefined where it never did. */
export async function clockBehindOf(db: Db | Tx, subject: string): Promise<number | undefined> {
  const [row] = await db
    .select({ most: max(audit.clockBehind) })
    .from(audit)
    .where(and(isNotNull(audit.clockBehind), or(eq(audit.subject, subject), like(audit.subject, `${subject}/%`))))
  return row?.most ?? undefined
}
