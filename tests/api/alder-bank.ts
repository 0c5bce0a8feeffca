/** The small farm that most of these tests are about: milked 05:00 and 16:30 UTC, six cows. */
export const SET_UP = {
  name: 'Alder Bank',
  timeZone: 'UTC',
  milkings: [
    { name: 'morning', start: '05:00' },
    { name: 'afternoon', start: '16:30' },
  ],
  parlour: { stalls: 20, turnMinutes: 10 },
  groups: [
    { name: 'Milkers', kind: 'milking' },
    { name: 'Fresh', kind: 'fresh' },
    { name: 'Dry', kind: 'dry' },
  ],
  freshHold: { milkings: 4 },
};

export const PENICILLIN = 'Penicillin G procaine, udder';
