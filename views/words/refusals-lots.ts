// What cannot be done with a lot, in a sentence.
import type { LotRefusals } from '../../app/terms/refusals-lots.ts'

export const lotRefusals: { [C in keyof LotRefusals]: (facts: LotRefusals[C]) => string } = {
  'lot/missing': ({ lot }) => `There is no lot ${lot}`,
}
