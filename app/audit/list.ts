// Reads the audit, the newest lines first.
import { and, desc, eq, lt } from 'drizzle-orm'
import type { Db } from '../../db/client.ts'
import { audit } from '../../db/schema/audit.ts'
import type { Role } from '../people/person.ts'

export type AuditLine = {
  id: number
  at: Date
  personName: string
  personRole: Role | null
  action: string
  subject: string
  detail: unknown
}

export const LINES_A_PAGE = 100

/** One page of lines about `subject` (such as lot/17; undefined: about anything), older than the line `before`. */
export async function auditOf(
  db: Db,
  { subject, before }: { subject: string | undefined; before: number | undefined },
): Promise<AuditLine[]> {
  const { id, at, personName, personRole, action, detail } = audit
  return db
    .select({ id, at, personName, personRole, action, subject: audit.subject, detail })
    .from(audit)
    .where(
      and(
        subject === undefined ? undefined : eq(audit.subject, subject),
        before === undefined ? undefined : lt(audit.id, before),
      ),
    )
    .orderBy(desc(audit.id))
    .limit(LINES_A_PAGE)
}
