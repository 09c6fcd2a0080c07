// What an item says besides its costs: what follows a count or a rejection, a critical place, and the standard that a contract may name.

import type { Problems, Typed } from '../../app/kit/problems.ts'
import type { ItemFacts } from '../../app/register/items.ts'
import { ChoiceField, Fact, Field, Select } from '../form.tsx'
import { rejectionWords, undecidedWords } from './terms.tsx'

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
      <Fact name="A lot that the plan rejects is">{rejectionWords[item.afterRejection].label}</Fact>
      <Fact name="A count may differ from the announced one by">{item.countDifferencePercent} %</Fact>
      <Fact name="A drawn cord that is gone or spoiled here counts as">
        {undecidedWords[item.undecidedCounts].label}
      </Fact>
      <Fact name="Cord by cord: a group">{item.groupSize} cords</Fact>
      <Fact name="Critical place">{item.critical ? 'Yes: every lot is tested whole' : 'No'}</Fact>
      <Fact name="Acceptance quality limit">
        {item.acceptanceQualityLimit === null
          ? 'No contract names one'
          : `${item.acceptanceQualityLimit} %, inspection level ${item.inspectionLevel}`}
      </Fact>
    </>
  )
}

export function FollowingFields({ typed, problems }: { typed: Typed; problems?: Problems | undefined }) {
  return (
    <>
      <ChoiceField
        name="afterRejection"
        label="A lot that the plan rejects is"
        value={typed.afterRejection ?? 'return'}
        problem={problems?.afterRejection}
        options={[
          { value: 'return', ...rejectionWords.return },
          { value: 'screen', ...rejectionWords.screen },
        ]}
      />
      <ChoiceField
        name="undecidedCounts"
        label="A drawn cord that is gone or spoiled here counts as"
        value={typed.undecidedCounts ?? 'manager-rules'}
        problem={problems?.undecidedCounts}
        options={[
          { value: 'manager-rules', ...undecidedWords['manager-rules'] },
          { value: 'nonconforming', ...undecidedWords.nonconforming },
        ]}
      />
      <Field
        name="countDifferencePercent"
        label="A count may differ from the announced one by"
        hint="Where it differs by more, a plan that was chosen at announcement waits for the officer"
        value={typed.countDifferencePercent ?? '2'}
        problem={problems?.countDifferencePercent}
        inputmode="decimal"
        size="short"
        unit="%"
        required
      />
      <GroupField typed={typed} problems={problems} />
    </>
  )
}

function GroupField({ typed, problems }: { typed: Typed; problems?: Problems | undefined }) {
  return (
    <Field
      name="groupSize"
      label="Cord by cord, how many cords are fetched and tested before the plan is asked again"
      hint="As many as the bench tests in an hour. They are the next picks of the draw over the whole lot, not the next cartons; the page of a plan says how many cartons a group opens."
      value={typed.groupSize ?? '30'}
      problem={problems?.groupSize}
      inputmode="numeric"
      size="short"
      unit="cords"
      required
    />
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
