// What an item says besides its costs: a critical place, and the published standard that a contract may name.

import type { Problems, Typed } from '../../app/kit/problems.ts'
import type { ItemFacts } from '../../app/register/items.ts'
import { ChoiceField, Fact, Select } from '../form.tsx'

const limits = [
  '0.010',
  '0.015',
  '0.025',
  '0.040',
  '0.065',
  '0.10',
  '0.15',
  '0.25',
  '0.40',
  '0.65',
  '1.0',
  '1.5',
  '2.5',
  '4.0',
  '6.5',
  '10',
]
const levels = ['S-1', 'S-2', 'S-3', 'S-4', 'I', 'II', 'III']

export function StandardFacts({ item }: { item: ItemFacts }) {
  return (
    <>
      <Fact name="Critical place">{item.critical ? 'Yes: every lot is tested whole' : 'No'}</Fact>
      <Fact name="Acceptance quality limit">
        {item.acceptanceQualityLimit === null
          ? 'No contract names one'
          : `${item.acceptanceQualityLimit} %, inspection level ${item.inspectionLevel}`}
      </Fact>
    </>
  )
}

export function StandardFields({ typed, problems }: { typed: Typed; problems?: Problems | undefined }) {
  return (
    <>
      <ChoiceField
        name="critical"
        label="Has the cord a critical place, such as between a panel and powered equipment?"
        value={typed.critical ?? 'no'}
        problem={problems?.critical}
        options={[
          { value: 'no', label: 'No', note: 'a sample may stand for the lot' },
          { value: 'yes', label: 'Yes', note: 'every lot is tested whole' },
        ]}
      />
      <Select
        name="acceptanceQualityLimit"
        label="Acceptance quality limit, if a contract names the published attributes standard"
        hint="In percent. It is the worst average that a series may have, not a promise about any one lot."
        value={typed.acceptanceQualityLimit ?? ''}
        problem={problems?.acceptanceQualityLimit}
        options={limits.map((value) => ({ value, label: `${value} %` }))}
      />
      <Select
        name="inspectionLevel"
        label="Inspection level of that standard"
        hint="II unless otherwise agreed"
        value={typed.inspectionLevel ?? 'II'}
        problem={problems?.inspectionLevel}
        options={levels.map((value) => ({ value, label: value }))}
      />
    </>
  )
}
