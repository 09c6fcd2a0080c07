// Closed sets of words for people: their roles, and what a link that works once is for.

export const roles = ['officer', 'inspector', 'manager'] as const
export type Role = (typeof roles)[number]

/** Who acts. `separateDuties` is false in a firm of one person: then a manager may do everyone's work, and the record says so. */
export type Person = { id: number; name: string; role: Role; separateDuties: boolean }

export const linkPurposes = ['set-up', 'new-password', 'new-manager'] as const

/** What one role alone may do. */
export type ActOfRole =
  | 'register-supplier'
  | 'define-item'
  | 'change-item'
  | 'announce-lot'
  | 'correct-lot'
  | 'receive-lot'
  | 'choose-plan'
  | 'freeze-plan'
  | 'draw-sample'
  | 'use-bench'
  | 'record-result'
  | 'record-results'
  | 'correct-result'
  | 'allow-stand-in'
  | 'decide-lot'
  | 'withdraw-lot'
  | 'note-series'
  | 'see-people'
  | 'add-people'
  | 'deactivate-people'
  | 'reactivate-people'
  | 'set-role'
  | 'reset-password'
