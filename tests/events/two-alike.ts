/** Two broken lines about 102 that were looked for until the first twelve digits of their hashes were the same. */
export const TWO_ALIKE = ['{"subject":"102","say":10603942', '{"subject":"102","say":13196264'] as const;
