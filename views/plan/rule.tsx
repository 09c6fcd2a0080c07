// The rule of a lot on its way: which stands, and what a rule is.
import type { LotRecord } from '../../app/lots/record/lot.ts'
import { moment } from '../figures.ts'
import { Version } from '../form.tsx'
import { ruleWords, waitWords } from '../lots/rule.ts'

export function RuleOfLot({ lot, choosing }: { lot: LotRecord; choosing: boolean }) {
  const { rule, state } = lot
  if (state === 'announced')
    return (
      <>
        {rule && (
          <p>
            Rule: <b>{ruleWords(rule.rule)}</b>, chosen by {rule.by}, {moment(rule.at)}. Its plan freezes with the
            receipt.
          </p>
        )}
        {choosing && <WhatARuleIs />}
        {choosing && rule && (
          <form method="post" action={`/lots/${lot.id}/rule`}>
            <Version value={lot.version} />
            <input type="hidden" name="kind" value="none" />
            <button type="submit" class="plain">
              Give the rule up
            </button>
          </form>
        )}
      </>
    )
  if (state !== 'received' || rule?.waits === undefined) return null
  return (
    <p class="caution">
      The rule “{ruleWords(rule.rule)}” of {rule.by} did not freeze a plan. {waitWords[rule.waits]}
    </p>
  )
}

function WhatARuleIs() {
  return (
    <details>
      <summary>Choose a rule now, and the plan freezes with the receipt</summary>
      <p>
        The plan is worked out anew for the number counted, and freezes once the inspector has confirmed the count, the
        cartons and one production mark. It waits for you where the count differs by more than the item allows, where
        the item is changed before, and where the series is discontinued. Only ways that need nothing of this supplier’s
        earlier lots can be a rule: none allowed, one sample for both risks, every cord, and a plan with numbers of its
        own. So no lot decided in between can change the plan.
      </p>
    </details>
  )
}
