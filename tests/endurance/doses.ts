/** What the devices of the endurance tests say: doses with ids of their own, and now and then one that must be refused. */
const COWS = ['101', '102', '103', '104', '105', '106'];

/** `count` doses; the ids say whose and which. Every seventh batch has one without a cow, which is set aside. */
export const batchOf = (device: string, batch: number, count: number): Record<string, unknown>[] =>
  Array.from({ length: count }, (_, index) => ({
    id: `${device}-${batch}-${index}`,
    type: 'treatment',
    ...(batch % 7 === 6 && index === 0 ? {} : { subject: COWS[(batch + index) % COWS.length] }),
    time: '2026-03-14T11:00:00Z',
    author: device,
    data: { medicine: 'Penicillin G procaine, udder', reason: `batch ${batch}` },
  }));
