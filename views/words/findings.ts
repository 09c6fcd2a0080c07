// What was found about a cord, a sentence a finding.
import type { EntryFinding } from '../../app/lots/rules/reading.ts'
import type { LookedAt, Parameter } from '../../app/terms/cord.ts'

export function findingSentence(finding: EntryFinding): string {
  switch (finding.kind) {
    case 'fault':
      return `${inspections[finding.inspection]} is at fault.`
    case 'no-reading':
      return `${parameters[finding.parameter]} has no reading, and no reading is not a conforming one.`
    case 'short':
      return `${parameters[finding.parameter]} is ${unsigned(finding.margin)} dB short of the limit.`
    case 'within-accuracy': {
      const { parameter, margin, accuracy, rule } = finding
      const counted = rule === 'strict' ? 'does not conform' : 'conforms'
      return `${parameters[parameter]} is ${unsigned(margin)} dB above the limit, within the tester’s ±${accuracy} dB: marginal, which this item counts as a cord that ${counted}.`
    }
    case 'missing':
      return `The cord is missing: ${finding.note}`
    case 'untestable':
      return `The cord cannot be tested: ${finding.note}`
    case 'damaged':
      return `The visual inspection is at fault, the cord is too damaged to test: ${finding.note}`
    case 'gone':
      return `The cord is gone: ${finding.note}`
    case 'spoiled':
      return `The cord was spoiled here: ${finding.note}`
    case 'no-cord':
      return `No cord lies in this place: ${finding.note}`
  }
}

const parameters: Record<Parameter, string> = { crosstalk: 'Crosstalk', 'return-loss': 'Return loss' }

const inspections: Record<LookedAt, string> = { 'wire-map': 'The wire map', visual: 'The visual inspection' }

function unsigned(margin: string): string {
  return margin.replace(/^-/, '')
}
