// Whether a page shows the way to an act: what the lot is open for, and the roles of who looks at it.

import type { LotFacts } from '../../app/lots/record/lot.ts'
import type { LotAct } from '../../app/terms/lot.ts'
import type { Role } from '../../app/terms/person.ts'

/** True where the lot is open for the act and one of the roles may do it. */
export function mayDo(act: LotAct, { lot, roles }: { lot: Pick<LotFacts, 'acts'>; roles: Role[] }): boolean {
  const step = lot.acts[act]
  return step !== undefined && roles.includes(step.by)
}
