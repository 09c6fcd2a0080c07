// Refusals about people: their accounts, names, roles, passwords, links and forms.
import type { ActOfRole, linkPurposes, Role } from './person.ts'

type None = Record<never, never>
type Named = { name: string }

export type PeopleRefusals = AccountRefusals & NameRefusals & PasswordRefusals & StandingRefusals

type AccountRefusals = {
  'person/missing': None
  'person/active': Named
  'person/inactive': Named
  'person/deactivated-before': Named
  'person/role-changed': Named
  'person/last-manager': None
  'person/added-otherwise': Named
  'example/people-only': None
  'example/name-taken': None
  'firm/set-up-before': None
  'firm/has-manager': None
}

type NameRefusals = {
  'name/taken': Named
  'name/length': None
  'name/blank': None
  'name/without-letters': None
  'name/uncommon-script': None
  'name/mixed-scripts': { scripts: readonly string[] }
}

type PasswordRefusals = {
  'password/short': { least: number }
  'password/few-different': { least: number }
  'password/common': None
  'password/product': None
  'password/own-name': { part: string }
  'password/present-one': None
  'password/own-page': None
  'password/wrong': None
  'password/sign-in': None
  'password/too-many-wrong': { seconds: number }
  'password/crowd': None
  'link/used-up': { purpose: (typeof linkPurposes)[number] }
  'link/inactive': None
}

type StandingRefusals = {
  'standing/temporary-password': None
  'standing/deactivated': Named
  'standing/reset': Named
  'standing/role-changed': Named
  /** role: whose act it is; own: the role of who tried */
  'standing/role': { role: Role; act: ActOfRole; name: string; own: Role }
  /** A key was used before: by whom, or for what */
  'key/used': { before: 'by-other' | 'for-other' | 'with-other-values' }
}
