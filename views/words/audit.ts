// What the audit's stored words say, to people.
import type { AuditAction } from '../../app/terms/actions.ts'

/** Who … did this. */
export const actionWords: Record<AuditAction, string> = {
  'supplier.registered': 'registered the supplier',
  'item.defined': 'defined the item',
  'item.changed': 'changed the item',
  'lot.announced': 'announced the lot',
  'lot.corrected': 'corrected the announcement',
  'lot.received': 'received the lot',
  'lot.rule-chosen': 'chose the rule for the plan',
  'lot.planned': 'froze the plan',
  'lot.drawn': 'drew the cords',
  'lot.accepted': 'accepted the lot',
  'lot.conceded': 'accepted the lot by concession',
  'lot.screening': 'ordered the screening',
  'lot.screened': 'finished the screening',
  'lot.sorted': 'kept the conforming cords',
  'lot.returned': 'returned the lot',
  'lot.withdrawn': 'withdrew the lot',
  'cord.recorded': 'recorded the cord',
  'cord.corrected': 'corrected the cord',
  'cord.stood-in': 'put a reserve cord in its place',
  'cord.ruled': 'ruled on the cord',
  'lot.recounted': 'recounted the lot',
  'cords.imported': 'took results from a file',
  'series.noted': 'noted something about the series',
  'person.added': 'added the account',
  'person.deactivated': 'deactivated the account',
  'person.reactivated': 'activated the account again',
  'person.role-set': 'set the role',
  'person.signed-in': 'signed in',
  'person.sign-in-delayed': 'was asked to wait before signing in',
  'person.signed-out': 'signed out',
  'person.signed-out-elsewhere': 'signed out all other sessions',
  'person.password-changed': 'changed the password',
  'person.password-chosen': 'chose a password by a link',
  'person.password-reset': 'reset the password',
  'person.recovery-offered': 'was offered a way to recover',
  'person.refused': 'was refused',
  'form.refused': 'sent a form that was refused',
}

/** An action of another version reads as its stored word. */
export function didWords(action: string): string {
  const known: Record<string, string> = actionWords
  return known[action] ?? action.replace(/[.-]/g, ' ')
}

const nouns: Record<string, string> = {
  lot: 'Lot',
  cord: 'cord',
  supplier: 'Supplier',
  item: 'Item',
  people: 'Account',
}

/** lot/17/cord/5 as Lot 17, cord 5. */
export function subjectWords(subject: string): string {
  const parts = subject.split('/')
  const said: string[] = []
  for (let at = 0; at < parts.length; at += 2)
    said.push([nouns[parts[at] ?? ''] ?? parts[at], parts[at + 1]].filter(Boolean).join(' '))
  return said.join(', ')
}
