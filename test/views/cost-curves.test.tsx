// The picture of costs by quality: a way is marked where its line is seen, and nowhere else.
import { expect, test } from 'vitest'
import { CostCurves } from '../../views/charts/cost-curves.tsx'

test('a way that costs more throughout than the picture shows has no letter in it', () => {
  const picture = CostCurves({
    title: 'Expected cost',
    description: 'three ways',
    fractions: [0, 0.5, 1],
    curves: [
      { letter: 'A', cents: [100, 200, 300] },
      { letter: 'B', cents: [0, 400, 9000] },
      { letter: 'C', cents: [5000, 5000, 5000] },
    ],
    belief: [1, 0.5, 0],
    breakEven: undefined,
    currency: 'EUR',
  })
  const letters = [...String(picture).matchAll(/translate\((\S+) (\S+)\)"><circle r="12"><\/circle><text y="5">(\w)/g)]
  // twice the dearest point of the cheapest way, 600 cents, is the top: y falls from 300 at nothing to 62 there
  expect(letters.map(([, x, y, letter]) => [letter, x, y])).toEqual([
    ['A', '364', '220.7'],
    ['B', '364', '141.3'],
  ])
})
