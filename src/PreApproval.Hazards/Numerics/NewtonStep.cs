namespace PreApproval.Hazards.Numerics;

/// <summary>The step of a minimisation that always leads down.</summary>
internal static class NewtonStep
{
    /// <summary>Cholesky of the scaled Hessian, with as much of the identity added as makes it positive definite; false where nothing does.</summary>
    /// <param name="hessian">By rows; the mean of it and its transpose counts.</param>
    /// <param name="gradient">Gradient.</param>
    /// <param name="scale">What makes the variables alike, each above 0: the factors of both sides of the Hessian.</param>
    /// <param name="factor">Work space as large as the Hessian.</param>
    /// <param name="step">Receives the step.</param>
    public static bool TryFind(ReadOnlySpan<double> hessian, ReadOnlySpan<double> gradient, ReadOnlySpan<double> scale, Span<double> factor, Span<double> step)
    {
        var size = gradient.Length;
        for (var shift = 0.0; shift < 1e8; shift = shift == 0 ? 1e-6 : shift * 10)
        {
            var definite = true;
            for (var i = 0; i < size && definite; i++)
            {
                for (var j = 0; j <= i; j++)
                {
                    var sum = 0.5 * (hessian[(i * size) + j] + hessian[(j * size) + i]) * scale[i] * scale[j];
                    sum += i == j ? shift : 0;
                    for (var k = 0; k < j; k++)
                    {
                        sum -= factor[(i * size) + k] * factor[(j * size) + k];
                    }

                    if (i != j)
                    {
                        factor[(i * size) + j] = sum / factor[(j * size) + j];
                    }
                    else if (sum > 1e-14)
                    {
                        factor[(i * size) + i] = Math.Sqrt(sum);
                    }
                    else
                    {
                        definite = false;
                    }
                }
            }

            if (!definite)
            {
                continue;
            }

            for (var i = 0; i < size; i++)
            {
                var sum = -gradient[i] * scale[i];
                for (var k = 0; k < i; k++)
                {
                    sum -= factor[(i * size) + k] * step[k];
                }

                step[i] = sum / factor[(i * size) + i];
            }

            for (var i = size - 1; i >= 0; i--)
            {
                var sum = step[i];
                for (var k = i + 1; k < size; k++)
                {
                    sum -= factor[(k * size) + i] * step[k];
                }

                step[i] = sum / factor[(i * size) + i];
            }

            for (var i = 0; i < size; i++)
            {
                step[i] *= scale[i];
            }

            return true;
        }

        return false;
    }
}
