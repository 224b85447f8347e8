package calc

// Version is the program's version as the page, the report and the printed
// sheet show it. It rises with each change that people should know of.
const Version = "0.7"
