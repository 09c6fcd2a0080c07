// Writes who did what, in the transaction of the change itself.

import type { Tx } from '../../db/client.ts'
import { audit } from '../../db/schema/audit.ts'
import { statement } from '../../db/statement.ts'
import type { AuditAction } from '../terms/actions.ts'
import type { Person } from '../terms/person.ts'

/**
 * Adds one line to the audit. It takes a transaction, so no entry outlives a change that failed.
 * `subject` a path (lot/17), `detail` what an auditor would ask.
 */
export async function record(
  tx: Tx,
  person: Person,
  action: AuditAction,
  subject: string,
  detail: Record<string, unknown>,
): Promise<void> {
  const line = { personId: person.id, personName: person.name, personRole: person.role, action, subject, detail }
  await addLine(tx, line)
}

/** The same for what nobody with an account did: `who` says in words where it came from. */
export async function recordFrom(
  tx: Tx,
  who: string,
  action: AuditAction,
  subject: string,
  detail: Record<string, unknown>,
): Promise<void> {
  await tx.insert(audit).values({ personId: null, personName: who, personRole: null, action, subject, detail })
}

const parts = ['personId', 'personName', 'personRole', 'action', 'subject', 'detail'] as const
type Line = Required<Pick<typeof audit.$inferInsert, (typeof parts)[number]>>
const addLine = statement<Line>('audit_line', parts).worded((db, line) => db.insert(audit).values(line))
