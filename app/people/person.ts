// Who is acting, and what their role lets them do.

import { Refusal } from '../kit/refusal.ts'
import { type ActOfRole, type Person, type Role, roleOfAct, roles } from '../terms/person.ts'

/** The roles in which a person may act: in a firm of one person the manager has all of them. */
export function rolesOf({ role, separateDuties }: Person): Role[] {
  return role === 'manager' && !separateDuties ? [...roles] : [role]
}

/** Refuses a person who does not have the role of the act. */
export function requireRole(person: Person, act: ActOfRole): void {
  const role = roleOfAct[act]
  if (rolesOf(person).includes(role)) return
  throw new Refusal('forbidden', 'standing/role', { role, act, name: person.name, own: person.role })
}
