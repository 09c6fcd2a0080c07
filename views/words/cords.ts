// How what is tested on a cord is called, within a sentence.
import type { LookedAt, Parameter } from '../../app/terms/cord.ts'

export const parameterWords: Record<Parameter, string> = {
  crosstalk: 'crosstalk',
  'return-loss': 'return loss',
}

export const lookedAtWords: Record<LookedAt, string> = {
  'wire-map': 'wire map',
  visual: 'visual',
}
