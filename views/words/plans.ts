// How the kinds of plan are called: as frozen for a lot, and as ways of testing that are compared.
import type { AlternativeKind } from '../../app/advice/alternatives.ts'
import type { PlanKind } from '../../app/terms/lot.ts'

/** As the record of a lot says it. */
export const kindWords: Record<PlanKind, string> = {
  'zero-acceptance': 'zero acceptance',
  single: 'both risks limited',
  percentage: 'a percentage of the lot',
  contract: 'the contract’s plan',
  'every-cord': 'each by its own result',
  double: 'two samples',
  groups: 'cord by cord in groups',
  sequential: 'cord by cord',
  standard: 'the standard’s plan',
}

/** As a row of the comparison is headed. */
export const wayWords: Record<AlternativeKind, string> = {
  'no-test': 'No test',
  percentage: 'Your percentage',
  contract: 'The plan you named',
  'zero-acceptance': 'None allowed',
  single: 'One sample, both risks limited',
  double: 'Two samples',
  groups: 'Cord by cord in groups',
  standard: 'The standard’s plan',
  'every-cord': 'Every cord',
}
