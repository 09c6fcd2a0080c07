// Where a drawn cord lies.
import { expect, test } from 'vitest'
import { placeOf } from '../../../app/lots/rules/place.ts'

test.each([
  { position: 1, cordsInCarton: 40, carton: 1, place: 1 },
  { position: 40, cordsInCarton: 40, carton: 1, place: 40 },
  { position: 41, cordsInCarton: 40, carton: 2, place: 1 },
  { position: 317, cordsInCarton: 40, carton: 8, place: 37 },
  { position: 3, cordsInCarton: 1, carton: 3, place: 1 },
])(
  'cord $position of cartons of $cordsInCarton lies in carton $carton at place $place',
  ({ position, cordsInCarton, carton, place }) => {
    expect(placeOf(position, cordsInCarton)).toEqual({ carton, place })
  },
)

test('every place of a lot is taken by exactly one cord, counted by hand through the cartons', () => {
  let position = 0
  for (let carton = 1; carton <= 7; carton++)
    for (let place = 1; place <= 13; place++) expect(placeOf(++position, 13)).toEqual({ carton, place })
})
