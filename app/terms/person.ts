// Closed sets of words for people: their roles, and what a link that works once is for.

export const roles = ['officer', 'inspector', 'manager'] as const
export type Role = (typeof roles)[number]

/** Who acts. `separateDuties` is false in a firm of one person: then a manager may do everyone's work, and the record says so. */
export type Person = { id: number; name: string; role: Role; separateDuties: boolean }

export const linkPurposes = ['set-up', 'new-password', 'new-manager'] as const

/** What one role alone may do, and which: verbs and pages name the act, and the role stands here alone. */
export const roleOfAct = {
  'register-supplier': 'officer',
  'define-item': 'officer',
  'change-item': 'officer',
  'announce-lot': 'officer',
  'correct-lot': 'officer',
  'receive-lot': 'inspector',
  'choose-plan': 'officer',
  'freeze-plan': 'officer',
  'draw-sample': 'inspector',
  'use-bench': 'inspector',
  'record-result': 'inspector',
  'record-results': 'inspector',
  'correct-result': 'inspector',
  'recount-lot': 'inspector',
  'rule-on-cord': 'manager',
  'decide-lot': 'manager',
  'withdraw-lot': 'manager',
  'note-series': 'manager',
  'see-people': 'manager',
  'add-people': 'manager',
  'deactivate-people': 'manager',
  'reactivate-people': 'manager',
  'set-role': 'manager',
  'reset-password': 'manager',
} as const satisfies Record<string, Role>
export type ActOfRole = keyof typeof roleOfAct
