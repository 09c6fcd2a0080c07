// Closed set of words for the audit: everything that it can tell, as it is stored.

/** noun.past; a word that was stored once stays, as the lines stay. */
export const auditActions = [
  'supplier.registered',
  'item.defined',
  'item.changed',
  'lot.announced',
  'lot.corrected',
  'lot.received',
  'lot.rule-chosen',
  'lot.planned',
  'lot.drawn',
  'lot.accepted',
  'lot.conceded',
  'lot.screening',
  'lot.screened',
  'lot.sorted',
  'lot.returned',
  'lot.withdrawn',
  'cord.recorded',
  'cord.corrected',
  'cord.stood-in',
  'cord.ruled',
  'lot.recounted',
  'cords.imported',
  'series.noted',
  'person.added',
  'person.deactivated',
  'person.reactivated',
  'person.role-set',
  'person.signed-in',
  'person.sign-in-delayed',
  'person.signed-out',
  'person.signed-out-elsewhere',
  'person.password-changed',
  'person.password-chosen',
  'person.password-reset',
  'person.recovery-offered',
  'person.refused',
  'form.refused',
] as const
export type AuditAction = (typeof auditActions)[number]

/** Coming and going, which stands apart from what was done. */
export const signInActions = [
  'person.signed-in',
  'person.sign-in-delayed',
  'person.signed-out',
  'person.signed-out-elsewhere',
] as const satisfies readonly AuditAction[]
