namespace PreApproval.Hazards.Plans;

/// <summary>
/// Where the mol of one substance came from and went, over the whole plan. With every amount known,
/// charged + produced + counted twice = in the vessels + consumed + removed + given off.
/// </summary>
/// <param name="Substance">What.</param>
/// <param name="ChargedMol">Taken from the material list.</param>
/// <param name="ProducedMol">Made by declared reactions, gas included.</param>
/// <param name="CountedTwiceMol">Solids that count on the filter as well as in the filtrate.</param>
/// <param name="ConsumedMol">Used up by declared reactions.</param>
/// <param name="RemovedMol">Evaporated, or discarded.</param>
/// <param name="GivenOffMol">Made as gas, whether shut in or let out.</param>
/// <param name="InVesselsMol">Left in all vessels at the end.</param>
/// <param name="Complete">False when some amount of it is not known: then the sums are lower bounds and need not balance.</param>
public sealed record SubstanceBalance(
    PlanSubstance Substance,
    double ChargedMol,
    double ProducedMol,
    double CountedTwiceMol,
    double ConsumedMol,
    double RemovedMol,
    double GivenOffMol,
    double InVesselsMol,
    bool Complete);

/// <summary>Keeps the balance while the plan is followed.</summary>
internal sealed class BalanceLedger
{
    // in the order in which the substances first appear; a plan has few
    private readonly List<Account> accounts = [];

    public void Charge(IReadOnlyList<Content> contents) => Post(contents, static (account, mol) => account.Charged += mol);

    public void Produce(PlanSubstance substance, double? mol) => Post(substance, mol, static (account, amount) => account.Produced += amount);

    public void GiveOff(PlanSubstance gas, double? mol) => Post(gas, mol, static (account, amount) => account.GivenOff += amount);

    public void Consume(PlanSubstance substance, double? mol) => Post(substance, mol, static (account, amount) => account.Consumed += amount);

    public void Remove(IReadOnlyList<Content> contents) => Post(contents, static (account, mol) => account.Removed += mol);

    public void CountTwice(IReadOnlyList<Content> contents) => Post(contents, static (account, mol) => account.CountedTwice += mol);

    /// <summary>Closes the books over what is left in the vessels.</summary>
    public IReadOnlyList<SubstanceBalance> Close(IEnumerable<Content> left)
    {
        Post([.. left], static (account, mol) => account.InVessels += mol);
        return accounts.ConvertAll(static account => new SubstanceBalance(
            account.Substance, account.Charged, account.Produced, account.CountedTwice, account.Consumed, account.Removed, account.GivenOff, account.InVessels, !account.Unknown));
    }

    private void Post(IReadOnlyList<Content> contents, Action<Account, double> entry)
    {
        for (var i = 0; i < contents.Count; i++)
        {
            Post(contents[i].Substance, contents[i].Mol, entry);
        }
    }

    private void Post(PlanSubstance substance, double? mol, Action<Account, double> entry)
    {
        var account = Of(substance);

        if (mol is { } known)
        {
            entry(account, known);
        }
        else
        {
            account.Unknown = true;
        }
    }

    private Account Of(PlanSubstance substance)
    {
        foreach (var account in accounts)
        {
            if (string.Equals(account.Substance.Key, substance.Key, StringComparison.Ordinal))
            {
                return account;
            }
        }

        accounts.Add(new Account(substance));
        return accounts[^1];
    }

    private sealed class Account(PlanSubstance substance)
    {
        public PlanSubstance Substance { get; } = substance;

        public double Charged { get; set; }

        public double Produced { get; set; }

        public double CountedTwice { get; set; }

        public double Consumed { get; set; }

        public double Removed { get; set; }

        public double GivenOff { get; set; }

        public double InVessels { get; set; }

        public bool Unknown { get; set; }
    }
}
