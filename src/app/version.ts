/** Version of the program that a result was made by; a test holds it equal to package.json's. */
export const version = "0.1.0";
