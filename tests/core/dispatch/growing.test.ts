import fc from "fast-check";
import { expect, it } from "vitest";
import { growingIntegers, growingNumbers } from "../../../src/core/dispatch/growing.ts";

it("gives back what was pushed, one by one and all at once, over any number of chunks", () => {
  fc.assert(
    fc.property(fc.nat({ max: 9000 }), (count) => {
      const numbers = growingNumbers();
      const integers = growingIntegers();
      for (let i = 0; i < count; i += 1) {
        numbers.push(i / 3);
        integers.push(2 * i);
      }
      let next = 0;
      numbers.forEach((value, index) => {
        if (value !== next / 3 || index !== next || integers.at(index) !== 2 * index)
          throw new Error(`at ${index}`);
        next += 1;
      });
      expect(next).toBe(count);
      expect(numbers.take()).toEqual(Float64Array.from({ length: count }, (_, i) => i / 3));
      expect(integers.take()).toEqual(Int32Array.from({ length: count }, (_, i) => 2 * i));
      expect(numbers.length).toBe(0);
      expect(numbers.take()).toEqual(new Float64Array(0));
    }),
    { examples: [[0], [1], [1024], [1025], [3072], [3073]] },
  );
});
