/** One reason of the second reading, with the instants between which it holds; infinity is "without end". */
export interface Hold {
  readonly from: number;
  readonly end: number;
  readonly why: string;
}
