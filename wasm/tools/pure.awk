# Reads "package import" lines and names the imports that break a rule of the
# house. What a test file imports is not in the list.

function bad(why) { print $1 " imports " $2 ": " why; failed = 1 }

# The page is bound in one place; everything else can be tested without it.
$2 == "syscall/js" || $2 ~ /^honnef\.co\/go\/js\/dom/ {
	if ($1 !~ /^splittally\/wasm\/page(\/|$)/) bad("only wasm/page touches the page")
}

# Equal cases give equal findings: no files, no network, no printing, no chance.
$1 ~ /^splittally\/calc/ && $2 ~ /^(os|net|log|syscall|unsafe|io\/ioutil|math\/rand)(\/|$)/ {
	if ($2 != "math/rand/v2" && $2 != "syscall/js") bad("the core is pure")
}

# A day is not 24 hours, so clock times stay where civil days are made of them.
$1 ~ /^splittally\/calc/ && $2 == "time" {
	if ($1 !~ /^splittally\/calc\/(calendar|intake)(\/|$)/) bad("civil days come from calc/calendar")
}

# Each of these adds 100 kB or more to what people load.
$2 ~ /^(encoding\/json|encoding\/xml|regexp|reflect|text\/template|html\/template|text\/tabwriter|log|net\/.*|gonum\.org\/v1\/gonum\/mat)$/ && $1 ~ /^splittally/ {
	if (!($1 ~ /^splittally\/calc/ && $2 ~ /^(log|net)/)) bad("it makes the engine too big")
}

# Arrows point one way: page -> calc -> small rooms. Only the rooms behind the
# road, which write down a case or its findings, know the road.
$1 ~ /^splittally\/calc\// && $2 == "splittally/calc" && $1 !~ /^splittally\/calc\/(report|link|changes)$/ {
	bad("a small room knows nothing of the road")
}
$1 ~ /^splittally\/calc/ && $2 ~ /^splittally\/wasm/ { bad("the core knows nothing of the page") }

END { exit failed }
