// How the roles of people are called.
import type { Role } from '../../app/terms/person.ts'

export const roleWords: Record<Role, string> = {
  officer: 'procurement officer',
  inspector: 'warehouse inspector',
  manager: 'manager',
}
