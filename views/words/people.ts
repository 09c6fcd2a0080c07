// How the roles of people are called, and what is theirs to do.
import type { ActOfRole, Role } from '../../app/terms/person.ts'

export const roleWords: Record<Role, string> = {
  officer: 'procurement officer',
  inspector: 'warehouse inspector',
  manager: 'manager',
}

/** What only somebody of a role may … */
export const roleActWords: Record<ActOfRole, string> = {
  'register-supplier': 'register a supplier',
  'define-item': 'define an item',
  'change-item': 'change an item',
  'announce-lot': 'announce a lot',
  'correct-lot': 'correct a lot',
  'receive-lot': 'receive a lot',
  'choose-plan': 'choose a plan',
  'freeze-plan': 'freeze a plan',
  'draw-sample': 'draw the sample',
  'use-bench': 'work at the bench',
  'record-result': 'record a result',
  'record-results': 'record results',
  'correct-result': 'correct a result',
  'recount-lot': 'count a lot again',
  'rule-on-cord': 'rule on a cord',
  'decide-lot': 'decide on a lot',
  'withdraw-lot': 'withdraw a lot',
  'note-series': 'say what the switching rules ask for',
  'see-people': 'see the people',
  'add-people': 'add people',
  'deactivate-people': 'deactivate people',
  'reactivate-people': 'reactivate people',
  'set-role': 'set a role',
  'reset-password': 'reset a password',
}
